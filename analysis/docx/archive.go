package docx

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"maps"
	"path"
	"slices"
	"strings"
)

// Limits, so that a small file cannot unpack to more than one can hold. A novel
// of 200,000 words has 5 MB of XML; ours.
const (
	maxEntries = 4096
	maxPart    = 16 << 20 // bytes of one part, unpacked
	maxDepth   = 256      // elements within each other
)

// An archive is the ZIP file that a document is (ECMA-376 part 2).
type archive struct {
	reader *zip.Reader
	byName map[string]*zip.File
}

var errDamaged = errors.New("damaged: it cannot be unpacked; open it in a word processor and save it anew")

func open(data []byte) (*archive, error) {
	reader, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		return nil, errDamaged
	}
	if len(reader.File) > maxEntries {
		return nil, fmt.Errorf("not taken: it has more than %d parts", maxEntries)
	}
	a := &archive{reader: reader, byName: map[string]*zip.File{}}
	for _, f := range reader.File {
		if f.Flags&1 != 0 { // APPNOTE 4.4.4: encrypted
			return nil, errLocked
		}
		a.byName[strings.TrimPrefix(f.Name, "/")] = f
	}
	return a, nil
}

// part unpacks one part; it is empty where there is none of that name.
func (a *archive) part(name string) ([]byte, error) {
	f := a.byName[name]
	if f == nil {
		return nil, nil
	}
	in, err := f.Open()
	if err != nil {
		return nil, errDamaged
	}
	defer in.Close()
	data, err := io.ReadAll(io.LimitReader(in, maxPart+1))
	if len(data) > maxPart {
		return nil, fmt.Errorf("not taken: %s in it unpacks to more than %d MiB", path.Base(name), maxPart>>20)
	}
	if err != nil {
		return nil, errDamaged
	}
	return data, nil
}

// A relationship leads from one part to another (ECMA-376 part 2, 9.3).
type relationship struct {
	Type   string `xml:"Type,attr"`
	Target string `xml:"Target,attr"`
	Mode   string `xml:"TargetMode,attr"`
}

// related is the part that a part is related to in a kind of way, such as
// "comments"; "" where there is none. The package itself is the part "".
func (a *archive) related(from, kind string) (string, error) {
	data, err := a.part(relationshipsOf(from))
	if err != nil || data == nil {
		return "", err
	}
	var list struct {
		Relationships []relationship `xml:"Relationship"`
	}
	if err := xml.Unmarshal(data, &list); err != nil {
		return "", errDamaged
	}
	for _, r := range list.Relationships {
		if path.Base(r.Type) != kind || r.Mode == "External" {
			continue
		}
		if strings.HasPrefix(r.Target, "/") {
			return strings.TrimPrefix(path.Clean(r.Target), "/"), nil
		}
		return path.Join(path.Dir(from), r.Target), nil
	}
	return "", nil
}

func relationshipsOf(part string) string {
	folder, name := path.Split(part)
	return folder + "_rels/" + name + ".rels"
}

// main is the name of the part with the text.
func (a *archive) main() (string, error) {
	name, err := a.related("", "officeDocument")
	if err != nil {
		return "", err
	}
	if name == "" {
		name = "word/document.xml"
	}
	if a.byName[name] == nil || !strings.Contains(name, "document") {
		return "", a.stranger()
	}
	return name, nil
}

// stranger says what a ZIP file is that is no document.
func (a *archive) stranger() error {
	for _, kind := range []struct{ part, what string }{
		{"mimetype", "an OpenDocument or an e-book; save the manuscript as .docx or as plain text"},
		{"xl/workbook.xml", "a spreadsheet; is it the right file?"},
		{"ppt/presentation.xml", "a presentation; is it the right file?"},
	} {
		if a.byName[kind.part] != nil {
			return errors.New(kind.what)
		}
	}
	return errors.New("a packed folder, not a document; name the manuscript in it once it is unpacked")
}

// with is the archive with parts changed or added. Those that are not stay as
// they are, packed, byte for byte.
func (a *archive) with(changed map[string][]byte) ([]byte, error) {
	var b bytes.Buffer
	w := zip.NewWriter(&b)
	written := map[string]bool{}
	for _, f := range a.reader.File {
		data, anew := changed[strings.TrimPrefix(f.Name, "/")]
		if !anew {
			if err := w.Copy(f); err != nil {
				return nil, errDamaged
			}
			continue
		}
		written[strings.TrimPrefix(f.Name, "/")] = true
		if err := pack(w, zip.FileHeader{Name: f.Name, Method: zip.Deflate, Modified: f.Modified}, data); err != nil {
			return nil, err
		}
	}
	for _, name := range slices.Sorted(maps.Keys(changed)) {
		if !written[name] {
			if err := pack(w, zip.FileHeader{Name: name, Method: zip.Deflate}, changed[name]); err != nil {
				return nil, err
			}
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return b.Bytes(), nil
}

func pack(w *zip.Writer, header zip.FileHeader, data []byte) error {
	out, err := w.CreateHeader(&header)
	if err != nil {
		return err
	}
	_, err = out.Write(data)
	return err
}
