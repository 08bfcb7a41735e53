// Starts dandle for manuscripts of verse. Everything that is said about the
// verse comes from the server; this file only finds it and starts it.
import { existsSync } from 'node:fs';
import * as path from 'node:path';
import * as vscode from 'vscode';
import { ExecuteCommandRequest, LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { Pages } from './pages';
import { Pen } from './pen';

let client: LanguageClient | undefined;
let pages: Pages | undefined;
let pen: Pen | undefined;

/** The server's program: the user's, else the one in this extension, else the one on the PATH. */
function program(context: vscode.ExtensionContext): string {
  const chosen = vscode.workspace.getConfiguration('dandle').get<string>('program');
  if (chosen) return chosen;
  const name = process.platform === 'win32' ? 'dandle.exe' : 'dandle';
  const carried = path.join(context.extensionPath, 'server', name);
  return existsSync(carried) ? carried : name;
}

async function start(context: vscode.ExtensionContext): Promise<void> {
  client = new LanguageClient(
    'dandle',
    'dandle',
    { command: program(context), args: ['serve'], transport: TransportKind.stdio },
    {
      // No scheme: a manuscript that is not saved yet is read, too.
      documentSelector: [{ language: 'verse' }],
      synchronize: {
        configurationSection: 'dandle',
        fileEvents: vscode.workspace.createFileSystemWatcher('**/dandle.yaml'),
      },
      initializationOptions: vscode.workspace.getConfiguration('dandle'),
      middleware: {
        provideDiagnostics: (document, previous, token, next) => (pen ? pen.provideDiagnostics(document, previous, token, next) : next(document, previous, token)),
        // What a command of the server answers in words is shown beside the manuscript.
        executeCommand: async (command, args, next) => {
          const answer: unknown = await next(command, args);
          if (typeof answer === 'string') await pages?.show(command, answer);
          return answer;
        },
      },
    },
  );
  pen?.dispose();
  pen = new Pen(client);
  await client.start();
}

/** Asks a command of the server about the manuscript that is being edited. */
function about(command: string, ...more: string[]): () => Promise<void> {
  return async () => {
    const open = vscode.window.activeTextEditor?.document;
    if (open?.languageId !== 'verse') {
      void vscode.window.showInformationMessage('Open a manuscript of verse first.');
      return;
    }
    await vscode.commands.executeCommand(command, open.uri.toString(), ...more);
  };
}

/** Asks the server for the page about a finding's code. */
async function explain(code: string): Promise<string | undefined> {
  const page: unknown = await client?.sendRequest(ExecuteCommandRequest.type, { command: 'dandle.explain', arguments: [code] });
  return typeof page === 'string' ? page : undefined;
}

export async function activate(context: vscode.ExtensionContext): Promise<void> {
  pages = new Pages(explain);
  context.subscriptions.push(
    pages,
    vscode.commands.registerCommand('dandle.restart', async () => {
      await client?.stop();
      await start(context);
    }),
    vscode.commands.registerCommand('dandle.showCritique', about('dandle.critique')),
    vscode.commands.registerCommand('dandle.showLetter', about('dandle.openLetter')),
    vscode.commands.registerCommand('dandle.showFeet', about('dandle.scan')),
    vscode.commands.registerCommand('dandle.showChanges', about('dandle.compare')),
    vscode.commands.registerCommand('dandle.showChangesSinceCommit', about('dandle.compare', 'commit')),
    vscode.commands.registerCommand('dandle.showLog', () => client?.outputChannel.show()),
    vscode.workspace.onDidChangeConfiguration(async (change) => {
      if (change.affectsConfiguration('dandle.program')) await vscode.commands.executeCommand('dandle.restart');
    }),
  );
  try {
    await start(context);
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    void vscode.window.showErrorMessage(`dandle could not be started: ${reason}. Set "dandle.program" to where it lies.`);
  }
}

export async function deactivate(): Promise<void> {
  pen?.dispose();
  await client?.stop();
}
