// Command sarif validates standard input against the JSON schema of SARIF
// 2.1.0. The schema is the OASIS one as the go-sarif library carries it, in the
// Go file named on the command line: the library's own Validate looks at its
// reading of a report, and this program must look at the report itself.
package main

import (
	"errors"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io"
	"os"
	"strconv"
	"strings"

	_ "github.com/owenrumney/go-sarif/v3/pkg/report/v210/sarif" // carries the schema
	"github.com/xeipuuv/gojsonschema"
)

func main() {
	if err := run(os.Args[1], os.Stdin); err != nil {
		fmt.Fprintln(os.Stderr, "sarif:", err)
		os.Exit(1)
	}
}

func run(source string, in io.Reader) error {
	schema, err := constant(source, "schema")
	if err != nil {
		return err
	}
	report, err := io.ReadAll(in)
	if err != nil {
		return err
	}
	result, err := gojsonschema.Validate(gojsonschema.NewStringLoader(schema), gojsonschema.NewBytesLoader(report))
	if err != nil {
		return err
	}
	if !result.Valid() {
		var faults []string
		for _, fault := range result.Errors() {
			faults = append(faults, fault.String())
		}
		return errors.New(strings.Join(faults, "\n"))
	}
	fmt.Println("valid against the schema of SARIF 2.1.0")
	return nil
}

// constant is the value of a string constant in a Go file.
func constant(file, name string) (string, error) {
	parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, 0)
	if err != nil {
		return "", err
	}
	for _, declaration := range parsed.Decls {
		general, ok := declaration.(*ast.GenDecl)
		if !ok {
			continue
		}
		for _, spec := range general.Specs {
			value, ok := spec.(*ast.ValueSpec)
			if !ok || value.Names[0].Name != name || len(value.Values) != 1 {
				continue
			}
			if literal, ok := value.Values[0].(*ast.BasicLit); ok {
				return strconv.Unquote(literal.Value)
			}
		}
	}
	return "", fmt.Errorf("no constant %s in %s", name, file)
}
