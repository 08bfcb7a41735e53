package main

import (
	"path/filepath"
	"sync"

	"dandle/analysis/manuscript"
)

// houses finds the house rules that hold for a file, and keeps them by folder.
type houses struct {
	mu       sync.Mutex
	byFolder map[string]manuscript.House
}

func newHouses() *houses { return &houses{byFolder: map[string]manuscript.House{}} }

// of is the house rules of a file.
func (h *houses) of(name string) (manuscript.House, error) {
	folder := "."
	if name != standardInput {
		folder = filepath.Dir(name)
	}
	h.mu.Lock()
	defer h.mu.Unlock()
	house := h.byFolder[folder]
	return house, nil
}
