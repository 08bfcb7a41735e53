package docx

import (
	"bytes"
	"errors"
	"unicode/utf16"
)

var errLocked = errors.New("protected with a password; save a copy without one")

// Is reports whether data is a packed file, as a word-processor file is
// (APPNOTE 4.3.7); Read says what is in it.
func Is(data []byte) bool {
	return bytes.HasPrefix(data, []byte("PK\x03\x04")) || bytes.HasPrefix(data, []byte("PK\x05\x06"))
}

// Foreign says what data is that is neither text nor a file that Read reads; nil
// where it cannot tell.
func Foreign(data []byte) error {
	switch {
	case bytes.HasPrefix(data, []byte("\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")): // [MS-CFB] 2.2
		// An encrypted package is one stream of a compound file ([MS-OFFCRYPTO] 2.3.4.4).
		if bytes.Contains(data, wide("EncryptedPackage")) {
			return errLocked
		}
		return errors.New("an old word-processor file; save it as .docx or as plain text")
	case bytes.HasPrefix(data, []byte(`{\rtf`)):
		return errors.New("a rich text file; save it as .docx or as plain text")
	case bytes.HasPrefix(data, []byte("%PDF-")):
		return errors.New("a PDF; dandle reads the manuscript that it was made from")
	}
	return nil
}

// wide is a text as a compound file names its streams: UTF-16, the low byte first.
func wide(text string) []byte {
	var b []byte
	for _, unit := range utf16.Encode([]rune(text)) {
		b = append(b, byte(unit), byte(unit>>8))
	}
	return b
}
