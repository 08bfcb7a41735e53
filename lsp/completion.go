package lsp

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"

	"dandle/analysis/manuscript"
	"dandle/analysis/rhyme"
	"dandle/analysis/suggest"
	"dandle/lsp/protocol317"

	"go.lsp.dev/protocol"
	"go.lsp.dev/uri"
)

// maxCompletions bounds a list: nobody scrolls further, and every item is sent
// again at each letter.
const maxCompletions = 100

// unaskedDocs is how many items come with their documentation where a client
// cannot ask for it when the writer looks at one.
const unaskedDocs = 8

// completion offers keys and values in the front matter, and in the verse the
// words that would end the line at the cursor, or do in the place of the word
// that the cursor stands on.
func completion(_ context.Context, v view, p protocol.CompletionParams) (any, error) {
	s := v.snapshot()
	m := s.Manuscript()
	offset := v.offset(p.Position)
	if inFront(m, offset) {
		return protocol317.CompletionList{Items: v.frontMatter(offset)}, nil
	}
	if n := m.LineAt(offset); n >= len(s.Poem().Lines) {
		return protocol317.CompletionList{Items: []protocol317.CompletionItem{}}, nil
	}
	place := s.Place(offset)
	found := suggest.At(place)
	if len(found.Items) == 0 {
		found.Items = v.inPlaceOf(offset)
	}
	items := found.Items[:min(len(found.Items), maxCompletions)]
	list := protocol317.CompletionList{
		IsIncomplete: found.Incomplete || len(found.Items) > maxCompletions,
		Items:        []protocol317.CompletionItem{},
	}
	offer := completionList{uri: v.uri, docs: place.Docs(), items: items}
	if v.client.resolvesCompletions() {
		offer.id = v.memory.completions.keep(offer)
	}
	for i := range items {
		list.Items = append(list.Items, v.completionItem(&offer, i))
	}
	return list, nil
}

// inPlaceOf lists what would do in the place of the word in the middle of a line
// that the cursor stands on. Who types stands behind a word, and is not
// disturbed.
func (v view) inPlaceOf(offset int) []suggest.Item {
	s := v.snapshot()
	line, word, ok := s.Manuscript().WordAt(offset)
	if !ok || line >= len(s.Poem().Lines) || word+1 >= len(s.Poem().Lines[line].Words) {
		return nil
	}
	if span := s.Poem().Lines[line].Words[word].Span; offset < span.Start || span.End <= offset {
		return nil
	}
	return s.InPlaceOf(line, word, offset)
}

// completionData leads from an item that is to be resolved back to its list.
type completionData struct {
	URI  uri.URI `json:"uri"`
	List string  `json:"list"`
	Item int     `json:"item"`
}

func (v view) completionItem(list *completionList, place int) protocol317.CompletionItem {
	item := list.items[place]
	c := v.client.caps.TextDocument.Completion.CompletionItem
	out := protocol317.CompletionItem{
		Label:  item.Text,
		Kind:   int(protocol.CompletionItemKindText),
		Detail: item.Detail,
		// Best first, whatever the client would sort by.
		SortText:  fmt.Sprintf("%05d", place),
		Preselect: place == 0,
		TextEdit:  v.completionEdit(item, c.InsertReplaceSupport),
	}
	if item.Kind == rhyme.NoRhyme {
		// Another word is not what has been typed, so the client would leave it out.
		out.FilterText = item.Span.In(v.text)
	}
	if c.LabelDetailsSupport {
		out.LabelDetails = &protocol317.CompletionItemLabelDetails{Detail: " " + item.Pattern}
		if item.Kind != rhyme.NoRhyme {
			out.LabelDetails.Description = item.Kind.String()
		}
	}
	if v.client.resolvesCompletions() {
		out.Data, _ = json.Marshal(completionData{list.uri, list.id, place}) // strings and a number
		return out
	}
	if place < unaskedDocs {
		if doc := list.docs(item); doc != "" {
			out.Documentation = v.client.completionDoc(doc)
		}
	}
	return out
}

// completionEdit puts the word in. Where a word stands already, a client that
// can lets the writer keep what follows the cursor.
func (v view) completionEdit(item suggest.Item, insertReplace bool) any {
	place := v.rangeOf(item.Span)
	if insertReplace && item.Span.Len() > 0 {
		return protocol317.InsertReplaceEdit{NewText: item.Text, Insert: place, Replace: place}
	}
	return protocol317.TextEdit{Range: place, NewText: item.Text}
}

// completionDoc is a text in Markdown as the client shows it.
func (c client) completionDoc(text string) *protocol.MarkupContent {
	kind := c.completionFormat()
	if kind != protocol.Markdown {
		text = withoutMarks(text)
	}
	return &protocol.MarkupContent{Kind: kind, Value: text}
}

// withoutMarks takes the marks of emphasis and code out of a text in Markdown;
// what a backslash protects stays.
func withoutMarks(text string) string {
	var b strings.Builder
	kept := false // the sign is protected
	for _, r := range text {
		switch {
		case kept:
			b.WriteRune(r)
			kept = false
		case r == '\\':
			kept = true
		case !strings.ContainsRune("*_`", r):
			b.WriteRune(r)
		}
	}
	return b.String()
}

// completionResolve adds to an item what its list left out. An item of a list
// that is not the last any more comes back as it went.
func (s *server) completionResolve(params json.RawMessage) (work, error) {
	item, err := decodeParams[map[string]json.RawMessage](params)
	if err != nil {
		return nil, err
	}
	return func(context.Context) (any, error) {
		var data completionData
		if json.Unmarshal(item["data"], &data) != nil {
			return item, nil
		}
		if docs, found, ok := s.memory.completions.find(data.URI, data.List, data.Item); ok {
			if doc := docs(found); doc != "" {
				item["documentation"], _ = json.Marshal(s.client.completionDoc(doc)) // two strings
			}
		}
		return item, nil
	}, nil
}

// A completionShelf keeps the last list that was sent, of whatever document: a
// client shows one at a time.
type completionShelf struct {
	mu   sync.Mutex
	sent int64 // how many lists
	list completionList
}

type completionList struct {
	uri   uri.URI
	id    string
	docs  func(suggest.Item) string
	items []suggest.Item
}

func newCompletionShelf() *completionShelf { return &completionShelf{} }

func (k *completionShelf) keep(l completionList) string {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.sent++
	l.id = strconv.FormatInt(k.sent, 36)
	k.list = l
	return l.id
}

func (k *completionShelf) find(u uri.URI, id string, place int) (docs func(suggest.Item) string, item suggest.Item, ok bool) {
	k.mu.Lock()
	defer k.mu.Unlock()
	l := k.list
	if l.uri != u || l.id != id || place < 0 || place >= len(l.items) {
		return nil, suggest.Item{}, false
	}
	return l.docs, l.items[place], true
}

func (k *completionShelf) forget(u uri.URI) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.list.uri == u {
		k.list = completionList{}
	}
}

// inFront reports whether an offset lies between the fences of the front matter.
func inFront(m *manuscript.Manuscript, offset int) bool {
	s := m.Front.Span
	return s.Len() > 0 && m.FileLine(offset) > m.FileLine(s.Start) && offset < s.End &&
		m.FileLine(offset) < m.FileLine(s.End-1)
}

// A frontKey is a key of the front matter, with what may stand for its value.
type frontKey struct {
	name, doc string
	values    []string
}

// frontKeys are the keys that a manuscript's front matter takes.
func frontKeys() []frontKey {
	var meters []string
	for _, foot := range []string{"iambic", "trochaic", "anapestic", "dactylic", "amphibrachic"} {
		for _, length := range []string{"trimeter", "tetrameter", "pentameter"} {
			meters = append(meters, foot+" "+length)
		}
	}
	return []frontKey{
		{"title", "The book's title.", nil},
		{"ages", "The readers' years, such as 3-6.", []string{"0-3", "3-6", "4-8"}},
		{"meter", "The meter that is meant. Without it, it is heard.", meters},
		{"dialect", "The accent that words are pronounced in.", knownDialects()},
		{"pronounce", "Words taught: { Oban: \"OH-bn\" }.", nil},
		{"pitch", "The book in one sentence.", nil},
		{"allow", "Findings accepted in the whole manuscript: [word/filler].", nil},
		{"dandle", "In a Markdown file, says that it holds verse.", []string{"verse"}},
	}
}

// frontMatter offers the keys that are not there yet at a line's start, and a
// key's values after its colon.
func (v view) frontMatter(offset int) []protocol317.CompletionItem {
	out := []protocol317.CompletionItem{}
	m := v.snapshot().Manuscript()
	line := v.line(v.lineAt(offset))
	before := v.text[line.Start:offset]
	name, typed, isValue := strings.Cut(before, ":")
	for i, key := range frontKeys() {
		if !isValue {
			given := slices.ContainsFunc(m.Front.Keys, func(k manuscript.Key) bool { return k.Name == key.name && !k.Span.Touches(offset) })
			if !given && strings.HasPrefix(key.name, strings.TrimSpace(before)) {
				out = append(out, v.frontItem(key.name+": ", key.name, key.doc, i, line.Start, offset))
			}
			continue
		}
		if key.name != strings.TrimSpace(name) {
			continue
		}
		start := offset - len(strings.TrimLeft(typed, " "))
		for j, value := range key.values {
			if strings.HasPrefix(value, v.text[start:offset]) {
				out = append(out, v.frontItem(value, value, key.doc, j, start, offset))
			}
		}
	}
	return out
}

func (v view) frontItem(text, label, doc string, place, start, end int) protocol317.CompletionItem {
	return protocol317.CompletionItem{
		Label: label, Kind: int(protocol.CompletionItemKindProperty), Detail: doc, SortText: fmt.Sprintf("%05d", place),
		TextEdit: protocol317.TextEdit{Range: v.rangeOf(manuscript.Span{Start: start, End: end}), NewText: text},
	}
}
