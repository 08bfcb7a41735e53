package lsp

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"

	"dandle/analysis/card"
	"dandle/analysis/checks"
	"dandle/analysis/critique"
	"dandle/lsp/protocol317"

	"go.lsp.dev/jsonrpc2"
	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

// The commands. Their arguments are a list; results are text in Markdown unless
// said otherwise.
const (
	commandExplain  = "dandle.explain"    // (code): the page about a finding
	commandScan     = "dandle.scan"       // (uri, stanza from 0; all without it): the lines in feet
	commandCritique = "dandle.critique"   // (uri): the letter that an editor would write
	commandOpen     = "dandle.openLetter" // (uri): writes the letter as a page and has the client open it in a browser; its URI from a client that cannot
	commandCompare  = "dandle.compare"    // (uri, "saved" or "commit"): what the writing since the last saving, or the last commit, has mended and what it broke
	commandTeach    = "dandle.teach"      // (uri, word, respelling): writes it into the front matter
	commandApply    = "dandle.apply"      // (edit): has the client apply an edit, for clients without code action literals
)

// A command does its work on values taken on the reading goroutine.
type command func(s *server, arguments []json.RawMessage) (work, error)

func commands() map[string]command {
	return map[string]command{
		commandExplain:  (*server).explain,
		commandScan:     (*server).scan,
		commandCritique: (*server).critique,
		commandOpen:     (*server).openLetter,
		commandCompare:  (*server).compare,
		commandTeach:    (*server).teach,
		commandApply:    (*server).applyCommand,
	}
}

func commandNames() []string {
	var out []string
	for name := range commands() {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}

func (s *server) executeCommand(params json.RawMessage) (work, error) {
	p, err := decodeParams[struct {
		Command   string            `json:"command"`
		Arguments []json.RawMessage `json:"arguments"`
	}](params)
	if err != nil {
		return nil, err
	}
	run, ok := commands()[p.Command]
	if !ok {
		return nil, badParams(fmt.Errorf("no such command: %q", p.Command))
	}
	return run(s, p.Arguments)
}

// argument reads one argument.
func argument[T any](list []json.RawMessage, i int, what string) (T, error) {
	var value T
	if i >= len(list) {
		return value, badParams(fmt.Errorf("argument %d is missing: %s", i+1, what))
	}
	if err := json.Unmarshal(list[i], &value); err != nil {
		return value, badParams(fmt.Errorf("argument %d, %s: %w", i+1, what, err))
	}
	return value, nil
}

// documentArgument is the open document that the first argument names.
func (s *server) documentArgument(list []json.RawMessage) (view, error) {
	u, err := argument[uri.URI](list, 0, "the document's URI")
	if err != nil {
		return view{}, err
	}
	d := s.workspace.document(u)
	if d == nil {
		return view{}, badParams(errNotOpen)
	}
	return s.view(d), nil
}

func (s *server) explain(list []json.RawMessage) (work, error) {
	code, err := argument[string](list, 0, "a finding's code")
	if err != nil {
		return nil, err
	}
	return func(context.Context) (any, error) {
		page, ok := checks.Explain(checks.Code(code))
		if !ok {
			return nil, badParams(fmt.Errorf("no finding has the code %q", code))
		}
		return page, nil
	}, nil
}

func (s *server) scan(list []json.RawMessage) (work, error) {
	v, err := s.documentArgument(list)
	if err != nil {
		return nil, err
	}
	stanza := -1
	if len(list) > 1 {
		if stanza, err = argument[int](list, 1, "a stanza's number, from 0"); err != nil {
			return nil, err
		}
	}
	return func(context.Context) (any, error) {
		m := v.snapshot().Manuscript()
		from, to := 0, len(m.Lines)
		if stanza >= 0 {
			if stanza >= len(m.Stanzas) {
				return nil, badParams(errors.New("there is no such stanza"))
			}
			from, to = m.Stanzas[stanza].From, m.Stanzas[stanza].To
		}
		text := v.cards(from, to)
		s.say(text)
		return fenced(text), nil
	}, nil
}

// cards sets lines in feet, stanzas parted by an empty line.
func (v view) cards(from, to int) string {
	m := v.snapshot().Manuscript()
	poem := v.snapshot().Poem()
	var b strings.Builder
	for n := from; n < min(to, len(poem.Lines)); n++ {
		if n > from && m.Lines[n].Place == 0 {
			b.WriteString("\n")
		}
		b.WriteString(card.Line(m.Text, m.Lines[n], poem.Lines[n]).String())
	}
	return b.String()
}

func (s *server) critique(list []json.RawMessage) (work, error) {
	v, err := s.documentArgument(list)
	if err != nil {
		return nil, err
	}
	return func(context.Context) (any, error) {
		text := critique.Markdown(v.snapshot().Letter(critique.Full))
		s.say(text)
		return text, nil
	}, nil
}

// say tells the user a command's result where the client itself may drop it. It
// does not wait for the client.
func (s *server) say(text string) {
	s.background.run(func(context.Context) {
		s.notify(protocol.MethodWindowLogMessage, protocol.LogMessageParams{Type: protocol.MessageTypeLog, Message: text})
	})
}

// teach writes a word's respelling into the front matter.
func (s *server) teach(list []json.RawMessage) (work, error) {
	v, err := s.documentArgument(list)
	if err != nil {
		return nil, err
	}
	word, err := argument[string](list, 1, "a word")
	if err != nil {
		return nil, err
	}
	respelling, err := argument[string](list, 2, "how it sounds, such as OH-bn")
	if err != nil {
		return nil, err
	}
	if strings.TrimSpace(word) == "" || strings.TrimSpace(respelling) == "" {
		return nil, badParams(errors.New("a word and how it sounds are wanted"))
	}
	return func(ctx context.Context) (any, error) {
		edit, err := json.Marshal(v.workspaceEdit([]checks.Edit{v.teaching(word, respelling)}))
		if err != nil {
			return nil, err
		}
		return nil, s.applyEdit(ctx, "Teach how “"+word+"” sounds", edit)
	}, nil
}

func (s *server) applyCommand(list []json.RawMessage) (work, error) {
	edit, err := argument[json.RawMessage](list, 0, "an edit")
	if err != nil {
		return nil, err
	}
	return func(ctx context.Context) (any, error) { return nil, s.applyEdit(ctx, "", edit) }, nil
}

// applyEdit has the client change documents, and fails where it does not.
func (s *server) applyEdit(ctx context.Context, label string, edit json.RawMessage) error {
	if !s.client.caps.Workspace.ApplyEdit {
		return jsonrpc2.NewError(protocol317.RequestFailed, "this editor takes no edits from a command")
	}
	var result protocol317.ApplyWorkspaceEditResult
	if err := s.call(ctx, protocol.MethodWorkspaceApplyEdit, protocol317.ApplyWorkspaceEditParams{Label: label, Edit: edit}, &result); err != nil {
		return fmt.Errorf("apply edit: %w", err)
	}
	if !result.Applied {
		return jsonrpc2.NewError(protocol317.RequestFailed, "the editor did not apply the edit: "+result.FailureReason)
	}
	return nil
}
