package lsp

import (
	"context"
	"encoding/json"
	"fmt"
	"path/filepath"
	"sync"
	"sync/atomic"

	"dandle/lsp/protocol317"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
	"go.uber.org/zap"
)

// A server is one session. Its fields are set before the first message is read,
// or by initialize.
type server struct {
	config     Config
	log        *zap.Logger
	conn       jsonrpc2.Conn
	frames     *stream
	dispatcher *dispatcher
	background *background
	parentGone func()

	client    client // set by initialize
	workspace *workspace
	desk      *desk
	memory    *memory
	shelf     *shelf
	ready     chan struct{} // closed by initialized: the client may be told of things
	shut      atomic.Bool   // shutdown was asked for

	toldTooLong map[uri.URI]bool // touched by the reading goroutine only

	cancels sync.Map     // of running work, by progress token
	errands atomic.Int64 // numbers the progress tokens that are the server's own

	houseMu    sync.Mutex
	houseShown map[string]bool // files of house rules with problems on show
}

func newServer(ctx context.Context, conn jsonrpc2.Conn, frames *stream, log *zap.Logger, config Config, parentGone func()) *server {
	s := &server{
		config: config, log: log, conn: conn, frames: frames, parentGone: parentGone,
		dispatcher: newDispatcher(log),
		background: newBackground(ctx),
		workspace:  newWorkspace(),
		memory:     newMemory(),
		shelf:      newShelf(),
		ready:      make(chan struct{}),

		toldTooLong: map[uri.URI]bool{},
	}
	s.desk = newDesk(s.background, s.publish)
	s.dispatcher.notify = s.notification
	s.dispatcher.prepare = s.request
	s.dispatcher.handled = func() {
		// As long as more has arrived, what was changed will change again.
		if !frames.waiting() {
			s.desk.release()
		}
	}
	return s
}

// background runs the session's goroutines that no request waits for.
type background struct {
	ctx    context.Context
	stop   context.CancelFunc
	mu     sync.Mutex
	ended  bool
	active sync.WaitGroup
}

func newBackground(ctx context.Context) *background {
	b := &background{}
	b.ctx, b.stop = context.WithCancel(ctx)
	return b
}

// run starts f, unless the session is over.
func (b *background) run(f func(ctx context.Context)) {
	b.mu.Lock()
	defer b.mu.Unlock()
	if !b.ended {
		b.active.Go(func() { f(b.ctx) })
	}
}

// wait ends the background for new work and waits for the old.
func (b *background) wait() {
	b.mu.Lock()
	b.ended = true
	b.mu.Unlock()
	b.active.Wait()
}

// A view is what a request sees: one version of one document, the client that
// asks, and its settings.
type view struct {
	*document
	client   client
	settings Settings
	memory   *memory
}

// memory is what the session remembers of its answers, for the requests that
// come back to them.
type memory struct {
	tokens      *tokenShelf
	completions *completionShelf
}

func newMemory() *memory {
	return &memory{tokens: newTokenShelf(), completions: newCompletionShelf()}
}

func (m *memory) forget(u uri.URI) {
	m.tokens.forget(u)
	m.completions.forget(u)
}

func (s *server) view(d *document) view {
	return view{document: d, client: s.client, settings: s.workspace.current(), memory: s.memory}
}

// A route prepares the work of one method on the reading goroutine.
type route func(s *server, params json.RawMessage) (work, error)

// routes are the requests that are served once the session runs.
var routes = map[string]route{
	protocol.MethodShutdown:                      (*server).shutdown,
	protocol.MethodTextDocumentHover:             onDocument(hover),
	protocol.MethodTextDocumentCompletion:        onDocument(completion),
	protocol.MethodCompletionItemResolve:         (*server).completionResolve,
	protocol.MethodTextDocumentCodeAction:        onDocument(codeActions).orStale(),
	protocol317.MethodCodeActionResolve:          (*server).codeActionResolve,
	protocol.MethodTextDocumentCodeLens:          onDocument(codeLens),
	protocol317.MethodTextDocumentInlayHint:      onDocument(inlayHints),
	protocol.MethodTextDocumentDocumentSymbol:    onDocument(documentSymbols),
	protocol.MethodTextDocumentFoldingRange:      onDocument(folding),
	protocol.MethodTextDocumentDocumentHighlight: onDocument(highlight),
	protocol.MethodTextDocumentReferences:        onDocument(references),
	protocol.MethodTextDocumentDefinition:        onDocument(definition),
	protocol317.MethodTextDocumentSelectionRange: onDocument(selectionRanges),
	protocol.MethodTextDocumentDocumentLink:      onDocument(documentLinks),
	protocol.MethodTextDocumentFormatting:        onDocument(formatting).orStale(),
	protocol.MethodTextDocumentRangeFormatting:   onDocument(rangeFormatting).orStale(),
	protocol.MethodTextDocumentPrepareRename:     onDocument(prepareRename),
	protocol.MethodTextDocumentRename:            onDocument(rename).orStale(),
	protocol.MethodSemanticTokensFull:            onDocument(semanticTokensFull),
	protocol.MethodSemanticTokensFullDelta:       onDocument(semanticTokensDelta),
	protocol.MethodSemanticTokensRange:           onDocument(semanticTokensRange),
	protocol317.MethodTextDocumentDiagnostic:     onDocument(documentDiagnostic),
	protocol317.MethodWorkspaceDiagnostic:        (*server).workspaceDiagnostic,
	protocol.MethodWorkspaceSymbol:               (*server).workspaceSymbols,
	protocol.MethodWorkspaceExecuteCommand:       (*server).executeCommand,
}

func (s *server) request(method string, params json.RawMessage) (work, error) {
	if method == protocol.MethodInitialize {
		return s.initialize(params)
	}
	r, ok := routes[method]
	if !ok {
		return nil, jsonrpc2.NewError(jsonrpc2.MethodNotFound, "no such method: "+method)
	}
	return r(s, params)
}

// documentParams is what the params of all requests about a document share.
type documentParams struct {
	TextDocument *struct {
		URI uri.URI `json:"uri"`
	} `json:"textDocument"`
}

// documentOf finds the open document that params speak of.
func (s *server) documentOf(params json.RawMessage) (*document, error) {
	p, err := decodeParams[documentParams](params)
	if err != nil {
		return nil, err
	}
	if p.TextDocument == nil {
		return nil, jsonrpc2.NewError(jsonrpc2.InvalidParams, "params name no textDocument")
	}
	d := s.workspace.document(p.TextDocument.URI)
	if d == nil {
		return nil, jsonrpc2.NewError(jsonrpc2.InvalidParams, "the document is not open")
	}
	return d, nil
}

// onDocument makes a route of a pure function of a view.
func onDocument[P any](answer func(ctx context.Context, v view, p P) (any, error)) route {
	return func(s *server, params json.RawMessage) (work, error) {
		d, err := s.documentOf(params)
		if err != nil {
			return nil, err
		}
		p, err := decodeParams[P](params)
		if err != nil {
			return nil, err
		}
		v := s.view(d)
		return func(ctx context.Context) (any, error) { return answer(ctx, v, p) }, nil
	}
}

// orStale answers ContentModified where the document moved on while the work was
// done: for edits, which would fall in the wrong place. Other answers may still
// serve the client, which the specification leaves to it.
func (r route) orStale() route {
	return func(s *server, params json.RawMessage) (work, error) {
		asked, err := s.documentOf(params)
		if err != nil {
			return nil, err
		}
		job, err := r(s, params)
		if err != nil {
			return nil, err
		}
		return func(ctx context.Context) (any, error) {
			result, err := job(ctx)
			if now := s.workspace.document(asked.uri); now == nil || now.mapper != asked.mapper {
				return nil, errStale
			}
			return result, err
		}, nil
	}
}

// notifications are handled in the order of arrival. What is not named here is
// ignored, as the specification asks for those that start with "$/"; for the
// others there is nobody to tell.
var notifications = map[string]func(s *server, params json.RawMessage) error{
	protocol.MethodInitialized:           (*server).initialized,
	protocol.MethodTextDocumentDidOpen:   (*server).didOpen,
	protocol.MethodTextDocumentDidChange: (*server).didChange,
	protocol.MethodTextDocumentDidClose:  (*server).didClose,
	protocol.MethodTextDocumentDidSave:   (*server).didSave,
	protocol.MethodExit:                  (*server).exit,

	protocol.MethodWorkspaceDidChangeConfiguration:    (*server).didChangeConfiguration,
	protocol.MethodWorkspaceDidChangeWatchedFiles:     (*server).didChangeWatchedFiles,
	protocol.MethodWorkspaceDidChangeWorkspaceFolders: (*server).didChangeWorkspaceFolders,
	protocol.MethodWorkDoneProgressCancel:             (*server).cancelProgress,
}

func (s *server) notification(method string, params json.RawMessage) {
	handle, ok := notifications[method]
	if !ok {
		s.log.Debug("notification ignored", zap.String("method", method))
		return
	}
	if err := handle(s, params); err != nil {
		s.log.Warn("notification not taken", zap.String("method", method), zap.Error(err))
	}
}

// notify tells the client. It may block as long as the client does not read, so
// the reading goroutine never calls it.
func (s *server) notify(method string, params any) {
	if s.background.ctx.Err() != nil {
		return // after shutdown the client wants to hear no more
	}
	if err := s.conn.Notify(s.background.ctx, method, params); err != nil {
		s.log.Debug("notify", zap.String("method", method), zap.Error(err))
	}
}

func (s *server) didOpen(params json.RawMessage) error {
	p, err := decodeParams[protocol317.DidOpenTextDocumentParams](params)
	if err != nil {
		return err
	}
	item := p.TextDocument
	s.show(s.workspace.install(item.URI, item.LanguageID, item.Version, newMapper(item.Text, s.client.encoding)))
	return nil
}

func (s *server) didChange(params json.RawMessage) error {
	p, err := decodeParams[protocol317.DidChangeTextDocumentParams](params)
	if err != nil {
		return err
	}
	d, err := s.workspace.update(p.TextDocument.URI, func(old *document) (*document, error) {
		return old.apply(p.ContentChanges, p.TextDocument.Version)
	})
	if err != nil {
		return err
	}
	s.show(d)
	return nil
}

// didSave reads the house rules anew when they are saved, for clients that watch
// no files.
func (s *server) didSave(params json.RawMessage) error {
	p, err := decodeParams[protocol.DidSaveTextDocumentParams](params)
	if err != nil {
		return err
	}
	if path, ok := localPath(p.TextDocument.URI); ok && filepath.Base(path) == houseFile {
		s.reread()
	}
	return nil
}

func (s *server) didClose(params json.RawMessage) error {
	p, err := decodeParams[protocol.DidCloseTextDocumentParams](params)
	if err != nil {
		return err
	}
	u := p.TextDocument.URI
	s.memory.forget(u)
	delete(s.toldTooLong, u)
	if s.workspace.remove(u) && !s.client.pulls {
		s.desk.clear(u)
	}
	return nil
}

// show has a version's findings published.
func (s *server) show(d *document) {
	if d.tooLong() {
		s.tellTooLong(d.uri)
	}
	if !s.client.pulls {
		s.desk.put(d)
	}
}

// tellTooLong says once for each document that it is kept but not read.
func (s *server) tellTooLong(u uri.URI) {
	if s.toldTooLong[u] {
		return
	}
	s.toldTooLong[u] = true
	s.log.Warn("a document is too long to be read as verse", zap.Int("limit", maxAnalysed))
	s.background.run(func(context.Context) {
		s.notify(protocol.MethodWindowShowMessage, protocol.ShowMessageParams{
			Type:    protocol.MessageTypeInfo,
			Message: fmt.Sprintf("%s: this text is longer than %d bytes, so that its verse is not read. Editing goes on as ever.", serverName, maxAnalysed),
		})
	})
}
