package pinned

import (
	"archive/tar"
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	"encoding/hex"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// npmPackage writes a package as npm packs one, and pins it.
func npmPackage(t *testing.T, folder string, files map[string]string) Package {
	t.Helper()
	var packed bytes.Buffer
	zip := gzip.NewWriter(&packed)
	archive := tar.NewWriter(zip)
	for name, text := range files {
		if err := archive.WriteHeader(&tar.Header{Name: name, Typeflag: tar.TypeReg, Size: int64(len(text)), Mode: 0o644}); err != nil {
			t.Fatal(err)
		}
		if _, err := archive.Write([]byte(text)); err != nil {
			t.Fatal(err)
		}
	}
	if err := archive.Close(); err != nil {
		t.Fatal(err)
	}
	if err := zip.Close(); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(folder, "lamps-1.2.3.tgz"), packed.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	sum := sha256.Sum256(packed.Bytes())
	return Package{NPM, "lamps", "1.2.3", hex.EncodeToString(sum[:])}
}

func TestFiles(t *testing.T) {
	folder := t.TempDir()
	p := npmPackage(t, folder, map[string]string{"package/index.js": "lamp", "package/more.js": "wick", "package/LICENSE": "free"})
	got, err := p.Files(folder, func(name string) bool { return strings.HasSuffix(name, ".js") })
	if err != nil {
		t.Fatal(err)
	}
	want := map[string][]byte{"package/index.js": []byte("lamp"), "package/more.js": []byte("wick")}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("files (-want +got):\n%s", diff)
	}
}

func TestOnlyThePinnedPackageIsRead(t *testing.T) {
	folder := t.TempDir()
	p := npmPackage(t, folder, map[string]string{"package/index.js": "lamp"})
	for name, test := range map[string]struct {
		of   Package
		file string
		want string
	}{
		"another checksum": {Package{NPM, p.Name, p.Version, strings.Repeat("0", 64)}, "package/index.js", "is not the pinned lamps 1.2.3"},
		"another version":  {Package{NPM, p.Name, "1.2.4", p.SHA256}, "package/index.js", "want one lamps-1.2.4.tgz"},
		"no such file":     {p, "package/none.js", "no package/none.js in lamps 1.2.3"},
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := test.of.File(folder, test.file); err == nil || !strings.Contains(err.Error(), test.want) {
				t.Errorf("error %v, want %q", err, test.want)
			}
		})
	}
}
