package main

import (
	"bufio"
	"fmt"
	"os/exec"
	"path/filepath"
	"testing"
)

// BenchmarkStart is from the start of the server's process to its answer to
// initialize.
func BenchmarkStart(b *testing.B) {
	program := filepath.Join(b.TempDir(), "dandle")
	if said, err := exec.Command("go", "build", "-o", program, ".").CombinedOutput(); err != nil {
		b.Fatalf("build: %v\n%s", err, said)
	}
	const hello = `{"jsonrpc":"2.0","id":1,"method":"initialize","params":{"processId":null,"rootUri":null,"capabilities":{}}}`
	for b.Loop() {
		server := exec.Command(program, "serve")
		in, err := server.StdinPipe()
		if err != nil {
			b.Fatal(err)
		}
		out, err := server.StdoutPipe()
		if err != nil {
			b.Fatal(err)
		}
		if err := server.Start(); err != nil {
			b.Fatal(err)
		}
		fmt.Fprintf(in, "Content-Length: %d\r\n\r\n%s", len(hello), hello)
		if _, err := bufio.NewReader(out).ReadString('\n'); err != nil {
			b.Fatal(err)
		}
		b.StopTimer()
		in.Close()
		_ = server.Wait() // it ends with 1, since nobody said goodbye
		b.StartTimer()
	}
}
