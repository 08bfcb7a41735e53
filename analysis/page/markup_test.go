package page

import (
	"encoding/xml"
	"go/ast"
	"go/parser"
	"go/token"
	"html/template"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode"

	"github.com/google/go-cmp/cmp"
)

// TestMarkupIsOurs reads this package: all markup is written out where it is
// used, with a value for each of its places, and nothing is turned into it.
func TestMarkupIsOurs(t *testing.T) {
	files, err := filepath.Glob("*.go")
	if err != nil {
		t.Fatal(err)
	}
	written := 0
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		source, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, name, source, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			call, is := n.(*ast.CallExpr)
			if !is {
				return true
			}
			at := set.Position(call.Pos())
			switch f := call.Fun.(type) {
			case *ast.Ident:
				if f.Name == "markup" && name != "markup.go" {
					t.Errorf("%v: a value is turned into markup", at)
				}
			case *ast.SelectorExpr:
				if f.Sel.Name == "WriteString" && name != "markup.go" && name != "page.go" {
					t.Errorf("%v: text is written as it is", at)
				}
				if f.Sel.Name != "write" {
					return true
				}
				written++
				literal, is := call.Args[0].(*ast.BasicLit)
				if !is {
					t.Errorf("%v: markup that is not written out", at)
					return true
				}
				text, err := strconv.Unquote(literal.Value)
				if err != nil {
					t.Fatal(err)
				}
				if places := strings.Count(strings.ReplaceAll(text, "%%", ""), "%"); places != len(call.Args)-1 {
					t.Errorf("%v: %d values for %d places", at, len(call.Args)-1, places)
				}
			}
			return true
		})
	}
	if written < 50 {
		t.Errorf("only %d pieces of markup seen", written)
	}
}

var hostileValues = []string{
	"", "lamp & ladder", "a < b > c", `"quoted" and 'so'`, "</title><script>alert(1)</script>", `" onload="alert(1)`, "' onload='alert(1)",
	"&lt;b&gt; &amp;amp; &#0;", "<!-- -->", "]]>", "\x00\x01\u0085\u2028", "a\nb\r\tc", "\xff\xfe", "javascript:alert(1)", "100% %% %s", "–“”…♪◆", "\ufeff\U0010ffff",
}

// TestValuesStayText writes values in each of the places where a page has them,
// and reads them back as they were, but for what HTML may not hold.
func TestValuesStayText(t *testing.T) {
	for _, value := range hostileValues {
		var w writer
		w.write(`<p title="%" class="a %">%<q>%</q></p>`, value, value, value, value)
		d := xml.NewDecoder(strings.NewReader(w.String()))
		d.Strict, d.Entity = false, xml.HTMLEntity
		var p struct {
			Title string `xml:"title,attr"`
			Class string `xml:"class,attr"`
			Text  string `xml:",chardata"`
			Quote string `xml:"q"`
		}
		if err := d.Decode(&p); err != nil {
			t.Errorf("%q: %v\n%s", value, err, w.String())
			continue
		}
		want := clean(value)
		for _, got := range []string{p.Title, strings.TrimPrefix(p.Class, "a "), p.Text, p.Quote} {
			if diff := cmp.Diff(want, got); diff != "" {
				t.Errorf("%q (-want +got):\n%s", value, diff)
			}
		}
	}
}

// TestEscapesAsTemplatesDo compares every character with what the standard
// library's templates make of it, which know each place by its context; they also
// escape the plus sign, for a character set that no page of ours is in.
func TestEscapesAsTemplatesDo(t *testing.T) {
	places := template.Must(template.New("").Parse(`<title>{{.}}</title><p title="{{.}}">{{.}}</p>`))
	for r := rune(1); r <= 0x3000; r++ {
		text := string(r)
		if clean(text) != text || !unicode.IsPrint(r) {
			continue
		}
		var want strings.Builder
		if err := places.Execute(&want, text); err != nil {
			t.Fatal(err)
		}
		var w writer
		w.write(`<title>%</title><p title="%">%</p>`, text, text, text)
		if got := w.String(); got != strings.ReplaceAll(want.String(), "&#43;", "+") {
			t.Errorf("%U: %s, want %s", r, got, want.String())
		}
	}
}

func TestWriteFillsPlaces(t *testing.T) {
	var w writer
	w.write(`<g x="%" width="100%%">%</g>`, 12, "50%")
	if want := `<g x="12" width="100%">50%</g>`; w.String() != want {
		t.Errorf("got %s, want %s", w.String(), want)
	}
}

// FuzzValue holds any value to leaving the markup round it as it is.
func FuzzValue(f *testing.F) {
	for _, value := range hostileValues {
		f.Add(value)
	}
	f.Fuzz(func(t *testing.T, value string) {
		var w writer
		w.write(`%`, value)
		if strings.ContainsAny(w.String(), `<>"'`) {
			t.Errorf("%q comes out as %s", value, w.String())
		}
	})
}
