// Keeps findings about a line back while its writer is still at its end. A line
// of two words has no four beats and no rhyme yet, and nobody wants to be told so
// at every word. What is said comes from the server; this file knows the pen.
import * as vscode from 'vscode';
import { DocumentDiagnosticRequest, type LanguageClient, type Middleware, type vsdiag } from 'vscode-languageclient/node';

/** How long the pen rests, in milliseconds, before a line counts as finished. */
const rest = 1500;

/** Follows the pen through manuscripts of verse. */
export class Pen implements vscode.Disposable {
  private at: { readonly address: string; readonly line: number } | undefined;

  private resting: NodeJS.Timeout | undefined;

  /** Manuscripts whose last report was shown without the findings of a line. */
  private readonly shortened = new Set<string>();

  private readonly watching: vscode.Disposable;

  constructor(private readonly client: LanguageClient) {
    this.watching = vscode.Disposable.from(
      vscode.workspace.onDidChangeTextDocument((change) => this.wrote(change)),
      vscode.window.onDidChangeTextEditorSelection((moved) => {
        if (moved.textEditor.document.uri.toString() !== this.at?.address || moved.selections[0]?.active.line !== this.at.line) this.lift();
      }),
      vscode.workspace.onDidSaveTextDocument(() => this.lift()),
    );
  }

  dispose(): void {
    clearTimeout(this.resting);
    this.watching.dispose();
  }

  /** Leaves the findings of the line being written out of a report. */
  readonly provideDiagnostics: NonNullable<Middleware['provideDiagnostics']> = async (document, previousResultId, token, next) => {
    const address = ('uri' in document ? document.uri : document).toString();
    // The server may not say "as before" of what was shown in part.
    const report = await next(document, this.shortened.has(address) ? undefined : previousResultId, token);
    if (report?.kind !== 'full') return report;
    this.shortened.delete(address);
    const { at } = this;
    if (at?.address !== address) return report;
    const finished = report.items.filter((item) => item.range.start.line !== at.line);
    if (finished.length === report.items.length) return report;
    this.shortened.add(address);
    return { ...report, items: finished } satisfies vsdiag.FullDocumentDiagnosticReport;
  };

  private wrote({ document, contentChanges }: vscode.TextDocumentChangeEvent): void {
    const change = contentChanges.at(-1);
    if (document.languageId !== 'verse' || !change) return;
    const line = change.range.start.line;
    const end = change.range.start.character + change.text.length;
    const within = change.range.isSingleLine && !/[\r\n]/.test(change.text);
    if (!within || document.lineAt(line).text.slice(end).trim() !== '') {
      this.lift();
      return;
    }
    this.at = { address: document.uri.toString(), line };
    clearTimeout(this.resting);
    this.resting = setTimeout(() => this.lift(), rest);
  }

  /** Takes the pen off the line: what was kept back is asked for again. */
  private lift(): void {
    clearTimeout(this.resting);
    this.at = undefined;
    if (this.shortened.size === 0) return;
    for (const document of vscode.workspace.textDocuments) {
      if (this.shortened.has(document.uri.toString())) {
        this.client.getFeature(DocumentDiagnosticRequest.method)?.getProvider(document)?.onDidChangeDiagnosticsEmitter.fire();
        return; // which asks for all of them
      }
    }
  }
}
