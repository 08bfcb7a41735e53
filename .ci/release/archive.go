package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"time"
)

// A file is one file of an archive.
type file struct {
	name    string
	mode    int64
	content []byte
}

// tarball packs files for Unix. The same files give the same bytes.
func tarball(folder string, files []file, when time.Time) ([]byte, error) {
	var out bytes.Buffer
	packed := gzip.NewWriter(&out) // its header names no time
	w := tar.NewWriter(packed)
	for _, f := range files {
		head := &tar.Header{Format: tar.FormatUSTAR, Name: folder + "/" + f.name, Mode: f.mode, Size: int64(len(f.content)), ModTime: when}
		if err := w.WriteHeader(head); err != nil {
			return nil, err
		}
		if _, err := w.Write(f.content); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	if err := packed.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// zipped packs files for Windows, likewise.
func zipped(folder string, files []file, when time.Time) ([]byte, error) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, f := range files {
		part, err := w.CreateHeader(&zip.FileHeader{Name: folder + "/" + f.name, Method: zip.Deflate, Modified: when})
		if err != nil {
			return nil, err
		}
		if _, err := part.Write(f.content); err != nil {
			return nil, err
		}
	}
	if err := w.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}
