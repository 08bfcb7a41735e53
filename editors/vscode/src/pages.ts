// Shows what the server says in Markdown as pages: those about findings, to which
// the code of a finding links, and the answers of commands. A page cannot be
// edited, and nobody is asked to save it.
import * as vscode from 'vscode';

/** The scheme of pages. The server links to dandle:explain/CODE. */
const scheme = 'dandle';

/** VS Code's own view of Markdown. */
const preview = 'vscode.markdown.preview.editor';

/** An answer that is one block of plain text. Its columns count: where it were set as a page, they would wrap. */
const block = /^(`{3,})text\n([^]*?)\n?\1\n?$/;

/** What the page of a command's answer is called. */
const titles: Readonly<Record<string, string>> = {
  'dandle.scan': 'Feet',
  'dandle.critique': 'Letter',
  'dandle.compare': 'Changes',
};

export class Pages implements vscode.TextDocumentContentProvider, vscode.Disposable {
  private readonly changed = new vscode.EventEmitter<vscode.Uri>();

  readonly onDidChange = this.changed.event;

  /** The last answers, by the path of their page. */
  private readonly answers = new Map<string, string>();

  private readonly registered: vscode.Disposable;

  /** @param explain gives the page about a finding's code */
  constructor(private readonly explain: (code: string) => Promise<string | undefined>) {
    this.registered = vscode.Disposable.from(
      vscode.workspace.registerTextDocumentContentProvider(scheme, this),
      // A page's name has no ending that would tell its language.
      vscode.workspace.onDidOpenTextDocument((page) => {
        if (page.uri.scheme === scheme && page.uri.path.startsWith('explain/') && page.languageId !== 'markdown') void vscode.languages.setTextDocumentLanguage(page, 'markdown');
      }),
    );
  }

  dispose(): void {
    this.registered.dispose();
    this.changed.dispose();
  }

  async provideTextDocumentContent(uri: vscode.Uri): Promise<string | undefined> {
    const [what, ...code] = uri.path.split('/');
    return what === 'explain' ? this.explain(code.join('/')) : this.answers.get(uri.path);
  }

  /** Shows a command's answer beside the manuscript; a later one takes its place. */
  async show(command: string, answer: string): Promise<void> {
    const uri = vscode.Uri.from({ scheme, path: `answer/${titles[command] ?? command}` });
    const where = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true, preview: true };
    const text = block.exec(answer)?.[2];
    this.answers.set(uri.path, text ?? answer);
    this.changed.fire(uri);
    await vscode.commands.executeCommand('vscode.openWith', uri, text === undefined ? preview : 'default', where);
  }
}
