package lsp

import (
	"context"
	"fmt"

	"dandle/analysis/suggest"
	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
)

// maxCompletions bounds a list: nobody scrolls further, and every item is sent
// again at each letter.
const maxCompletions = 100

// completion offers the words that would end the line at the cursor.
func completion(_ context.Context, v view, p protocol.CompletionParams) (any, error) {
	s := v.snapshot()
	offset := v.offset(p.Position)
	found := suggest.At(suggest.Place{Manuscript: s.Manuscript(), Poem: s.Poem(), Reader: s.Reader(), Offset: offset})
	list := protocol317.CompletionList{
		IsIncomplete: found.Incomplete || len(found.Items) > maxCompletions,
		Items:        []protocol317.CompletionItem{},
	}
	for i, item := range found.Items[:min(len(found.Items), maxCompletions)] {
		list.Items = append(list.Items, completionItem(v, item, i))
	}
	return list, nil
}

func completionItem(v view, item suggest.Item, place int) protocol317.CompletionItem {
	c := v.client.caps.TextDocument.Completion.CompletionItem
	out := protocol317.CompletionItem{
		Label:  item.Text,
		Kind:   int(protocol.CompletionItemKindText),
		Detail: item.Detail,
		// Best first, whatever the client would sort by.
		SortText:  fmt.Sprintf("%05d", place),
		Preselect: place == 0,
		TextEdit:  protocol317.TextEdit{Range: v.rangeOf(item.Span), NewText: item.Text},
	}
	if c.LabelDetailsSupport {
		out.LabelDetails = &protocol317.CompletionItemLabelDetails{Detail: " " + item.Pattern, Description: item.Kind.String()}
	}
	if item.Doc != "" {
		out.Documentation = &protocol.MarkupContent{Kind: v.client.completionFormat(), Value: item.Doc}
	}
	return out
}
