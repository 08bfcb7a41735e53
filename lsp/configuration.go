package lsp

import (
	"context"
	"encoding/json"
	"path/filepath"
	"strings"
	"time"

	"dandle/analysis/manuscript"
	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
	"go.uber.org/zap"
)

// clientPatience is how long the server waits for a client's answer. It may be a
// person who answers.
const clientPatience = time.Minute

// call asks the client. It is never used on the reading goroutine, which would
// then wait for itself. The connection would leave a call waiting when the
// session ends; the context frees it.
func (s *server) call(ctx context.Context, method string, params, result any) error {
	if err := s.background.ctx.Err(); err != nil {
		return err // after shutdown the client is asked nothing more
	}
	ctx, cancel := context.WithTimeout(ctx, clientPatience)
	defer cancel()
	_, err := s.conn.Call(ctx, method, params, result)
	return err
}

// introduce does what has to wait until the client is initialized: registers
// what the client lets be registered, and asks for the settings.
func (s *server) introduce(ctx context.Context) {
	var list []protocol.Registration
	caps := s.client.caps.Workspace
	if caps.DidChangeConfiguration.DynamicRegistration {
		list = append(list, protocol.Registration{
			ID: "configuration", Method: protocol.MethodWorkspaceDidChangeConfiguration,
			RegisterOptions: map[string]any{"section": section},
		})
	}
	if caps.DidChangeWatchedFiles.DynamicRegistration {
		list = append(list, protocol.Registration{
			ID: "files", Method: protocol.MethodWorkspaceDidChangeWatchedFiles,
			RegisterOptions: map[string]any{"watchers": []any{
				map[string]any{"globPattern": "**/" + houseFile},
				map[string]any{"globPattern": "**/*.verse"},
			}},
		})
	}
	if len(list) > 0 {
		if err := s.call(ctx, protocol.MethodClientRegisterCapability, protocol.RegistrationParams{Registrations: list}, nil); err != nil {
			s.log.Info("the client did not register", zap.Error(err))
		}
	}
	s.pullSettings(ctx)
}

// pullSettings asks a client that can be asked for its settings.
func (s *server) pullSettings(ctx context.Context) {
	if !s.client.caps.Workspace.Configuration {
		return
	}
	var answer []json.RawMessage
	params := map[string]any{"items": []any{map[string]any{"section": section}}}
	if err := s.call(ctx, protocol.MethodWorkspaceConfiguration, params, &answer); err != nil {
		s.log.Info("the client did not tell its settings", zap.Error(err))
		return
	}
	// A client without settings of ours says null: what it gave at the start
	// then holds on.
	if len(answer) == 1 && string(answer[0]) != "null" {
		s.takeSettings(answer[0])
	}
}

// takeSettings reads settings and reads all documents anew under them.
func (s *server) takeSettings(raw json.RawMessage) {
	settings, err := parseSettings(raw)
	if err != nil {
		s.complain(err)
		return
	}
	if _, err := settings.over(manuscript.House{}); err != nil {
		s.complain(err)
	}
	s.workspace.set(settings)
	s.reread()
}

// complain tells the user of a setting that could not be read as meant. It does
// not wait for the client.
func (s *server) complain(err error) {
	s.log.Warn("settings", zap.Error(err))
	s.background.run(func(context.Context) {
		s.notify(protocol.MethodWindowShowMessage, protocol.ShowMessageParams{
			Type: protocol.MessageTypeWarning, Message: serverName + ": " + err.Error(),
		})
	})
}

// reread reads all documents under the rules that hold now, and makes the client
// ask again for what it has shown.
func (s *server) reread() {
	for _, d := range s.workspace.reread() {
		if !s.client.pulls {
			s.desk.put(d)
		}
	}
	s.desk.release()
	s.background.run(func(ctx context.Context) {
		s.showHouseProblems()
		s.refresh(ctx)
	})
}

// refresh asks the client to ask again.
func (s *server) refresh(ctx context.Context) {
	s.refreshDiagnostics(ctx)
	caps := s.client.caps.Workspace
	for _, r := range []struct {
		supported bool
		method    string
	}{
		{caps.InlayHint.RefreshSupport, protocol317.MethodInlayHintRefresh},
		{caps.CodeLens.RefreshSupport, protocol.MethodCodeLensRefresh},
		{caps.SemanticTokens.RefreshSupport, protocol.MethodSemanticTokensRefresh},
	} {
		if !r.supported {
			continue
		}
		if err := s.call(ctx, r.method, nil, nil); err != nil {
			s.log.Debug("refresh", zap.String("method", r.method), zap.Error(err))
		}
	}
}

// showHouseProblems publishes what is amiss in the files of house rules.
func (s *server) showHouseProblems() {
	s.houseMu.Lock()
	defer s.houseMu.Unlock()
	now := map[string]bool{}
	for file, rules := range s.workspace.houseFiles() {
		if len(rules.problems) == 0 && !s.houseShown[file] {
			continue
		}
		m := newMapper(rules.text, s.client.encoding)
		params := protocol317.PublishDiagnosticsParams{URI: uri.File(file), Diagnostics: []protocol317.Diagnostic{}}
		for _, p := range rules.problems {
			params.Diagnostics = append(params.Diagnostics, problem(m, p))
		}
		now[file] = len(rules.problems) > 0
		s.notify(protocol.MethodTextDocumentPublishDiagnostics, params)
	}
	for file, shown := range s.houseShown {
		if _, still := now[file]; shown && !still {
			s.notify(protocol.MethodTextDocumentPublishDiagnostics, protocol317.PublishDiagnosticsParams{
				URI: uri.File(file), Diagnostics: []protocol317.Diagnostic{},
			})
		}
	}
	s.houseShown = now
}

func (s *server) didChangeConfiguration(params json.RawMessage) error {
	if s.client.caps.Workspace.Configuration {
		s.background.run(s.pullSettings) // what the params hold is then none of ours
		return nil
	}
	var p struct {
		Settings map[string]json.RawMessage `json:"settings"`
	}
	if err := json.Unmarshal(params, &p); err != nil {
		return badParams(err)
	}
	s.takeSettings(p.Settings[section])
	return nil
}

func (s *server) didChangeWatchedFiles(params json.RawMessage) error {
	p, err := decodeParams[protocol.DidChangeWatchedFilesParams](params)
	if err != nil {
		return err
	}
	manuscripts := false
	for _, c := range p.Changes {
		path, ok := localPath(c.URI)
		if ok && filepath.Base(path) == houseFile {
			s.reread()
			return nil
		}
		manuscripts = manuscripts || ok && strings.EqualFold(filepath.Ext(path), manuscriptEnd)
	}
	if manuscripts {
		s.background.run(s.refreshDiagnostics)
	}
	return nil
}

// refreshDiagnostics has a client that pulls pull again.
func (s *server) refreshDiagnostics(ctx context.Context) {
	if !s.client.pulls || !s.client.caps.Workspace.Diagnostics.RefreshSupport {
		return
	}
	if err := s.call(ctx, protocol317.MethodDiagnosticRefresh, nil, nil); err != nil {
		s.log.Debug("refresh", zap.Error(err))
	}
}

func (s *server) didChangeWorkspaceFolders(params json.RawMessage) error {
	p, err := decodeParams[protocol.DidChangeWorkspaceFoldersParams](params)
	if err != nil {
		return err
	}
	s.workspace.setFolders(folderURIs(p.Event.Added), folderURIs(p.Event.Removed))
	s.reread()
	return nil
}

func folderURIs(list []protocol.WorkspaceFolder) []uri.URI {
	var out []uri.URI
	for _, f := range list {
		if u, err := uri.Parse(f.URI); err == nil {
			out = append(out, u)
		}
	}
	return out
}
