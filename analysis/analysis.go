// Package analysis is everything that dandle says about one version of a
// manuscript. A Snapshot never changes; a new text makes a new one, which
// takes over what still holds. It knows byte offsets; it knows nothing of JSON,
// protocols, files or goroutines.
package analysis
