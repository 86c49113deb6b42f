package house

import (
	"bytes"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// The limits. What one reads beside another, on half a screen, has 120 columns; what one keeps in mind is a function of
// 60 lines in a file of 400.
const (
	mostColumns       = 120 // a tab counts as tabColumns
	tabColumns        = 4
	mostFileLines     = 400
	mostFunctionLines = 60
)

// longFiles are files that may be longer, and why. Paths are from the root of the repository.
var longFiles = map[string]string{
	"web/static/text/en.js": "written by go test ./stream/phrase -update",
	"CHANGELOG.md":          "grows with each version",
}

// longFunctions are functions that may be longer, as FILE:NAME, and why.
var longFunctions = map[string]string{}

// longLines are files whose lines may be longer, and why.
var longLines = map[string]string{}

// A source is a text file of the repository that people write and read.
type source struct {
	name string // from the root, with slashes
	text []byte
}

// sources are all of them with one of the endings. What is generated, downloaded or test data is left out.
func sources(t *testing.T, endings ...string) (all []source) {
	t.Helper()
	err := fs.WalkDir(os.DirFS(root), ".", func(name string, d fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case d.IsDir() && slices.Contains([]string{".git", "bin", "node_modules", "testdata"}, path.Base(name)):
			return fs.SkipDir
		case d.IsDir() || !slices.Contains(endings, path.Ext(name)):
			return nil
		}
		text, err := os.ReadFile(filepath.Join(root, filepath.FromSlash(name)))
		if !bytes.HasPrefix(text, []byte("// Code generated ")) {
			all = append(all, source{name, text})
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, ending := range endings {
		if !slices.ContainsFunc(all, func(s source) bool { return path.Ext(s.name) == ending }) {
			t.Errorf("there is no file that ends in %s", ending)
		}
	}
	return all
}

// columns is the width of a line.
func columns(line string) (n int) {
	for _, r := range strings.TrimRight(line, "\r\n") {
		if r == '\t' {
			n += tabColumns - 1
		}
		n++
	}
	return n
}

func TestLinesFit(t *testing.T) {
	for _, s := range sources(t, ".go", ".js", ".css", ".md", ".toml") {
		n := 0
		for line := range strings.Lines(string(s.text)) {
			n++
			if filepath.Ext(s.name) == ".md" && strings.HasPrefix(line, "|") {
				continue // a row of a table is one line
			}
			if c := columns(line); c > mostColumns && longLines[s.name] == "" {
				t.Errorf("%s:%d has %d columns; must be at most %d", s.name, n, c, mostColumns)
			}
		}
	}
}

func TestFilesAreShort(t *testing.T) {
	for _, s := range sources(t, ".go", ".js", ".css") {
		if n := bytes.Count(s.text, []byte("\n")); n > mostFileLines && longFiles[s.name] == "" {
			t.Errorf("%s has %d lines; must be at most %d: divide it", s.name, n, mostFileLines)
		}
	}
}

// Tests are left out: a table of cases is long and easy to read.
func TestFunctionsAreShort(t *testing.T) {
	each(t, func(name string, files *token.FileSet, f *ast.File) {
		for _, d := range f.Decls {
			if fn, ok := d.(*ast.FuncDecl); ok {
				n := files.Position(fn.End()).Line - files.Position(fn.Pos()).Line + 1
				if n > mostFunctionLines && longFunctions[name+":"+fn.Name.Name] == "" {
					t.Errorf("%s:%d: %s has %d lines; must be at most %d", name, files.Position(fn.Pos()).Line,
						fn.Name.Name, n,
						mostFunctionLines)
				}
			}
		}
	})
}

// Every exported name is documented, where it is declared or above the group that it is in.
func TestExportedNamesAreDocumented(t *testing.T) {
	each(t, func(name string, files *token.FileSet, f *ast.File) {
		for _, fault := range undocumented(f) {
			t.Errorf("%s:%d: %s is exported and has no comment", name, files.Position(fault.Pos()).Line, fault.Name)
		}
	})
}

// undocumented are the exported names of a file without a comment.
func undocumented(f *ast.File) (all []*ast.Ident) {
	note := func(n *ast.Ident, docs ...*ast.CommentGroup) {
		if n.IsExported() && !slices.ContainsFunc(docs, func(c *ast.CommentGroup) bool { return c != nil }) {
			all = append(all, n)
		}
	}
	for _, d := range f.Decls {
		switch d := d.(type) {
		case *ast.FuncDecl:
			if d.Recv == nil || ast.IsExported(receiver(d.Recv.List[0].Type)) {
				note(d.Name, d.Doc)
			}
		case *ast.GenDecl:
			for _, s := range d.Specs {
				switch s := s.(type) {
				case *ast.TypeSpec:
					note(s.Name, s.Doc, s.Comment, d.Doc)
				case *ast.ValueSpec:
					for _, n := range s.Names {
						note(n, s.Doc, s.Comment, d.Doc)
					}
				}
			}
		}
	}
	return all
}

// receiver is the name of a method's type.
func receiver(x ast.Expr) string {
	switch x := x.(type) {
	case *ast.StarExpr:
		return receiver(x.X)
	case *ast.IndexExpr:
		return receiver(x.X)
	case *ast.Ident:
		return x.Name
	}
	return ""
}

// each parses every file of Go code but the tests.
func each(t *testing.T, do func(name string, files *token.FileSet, f *ast.File)) {
	t.Helper()
	for _, s := range sources(t, ".go") {
		if strings.HasSuffix(s.name, "_test.go") {
			continue
		}
		files := token.NewFileSet()
		f, err := parser.ParseFile(files, s.name, s.text, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		do(s.name, files, f)
	}
}

// An exception whose file is gone, or which gives no reason, is one too many.
func TestExceptions(t *testing.T) {
	for _, list := range []map[string]string{longFiles, longFunctions, longLines} {
		for what, why := range list {
			name, _, _ := strings.Cut(what, ":")
			if _, err := os.Stat(filepath.Join(root, filepath.FromSlash(name))); err != nil || why == "" {
				t.Errorf("%s: %q, %v", what, why, err)
			}
		}
	}
}

func TestColumns(t *testing.T) {
	for line, want := range map[string]int{"": 0, "ab\n": 2, "\ta\r\n": 5, "a\tb": 6, "1° of turn": 10} {
		if got := columns(line); got != want {
			t.Errorf("%q has %d columns, want %d", line, got, want)
		}
	}
}

func TestUndocumented(t *testing.T) {
	for text, want := range map[string]string{
		"func F() {}":                                "[F]",
		"// F is.\nfunc F() {}":                      "[]",
		"func f() {}":                                "[]",
		"type t int\nfunc (t) F() {}":                "[]",
		"// T is.\ntype T int\nfunc (*T) F() {}":     "[F]",
		"type T struct{}":                            "[T]",
		"// They are.\nconst (\n\tA = 1\n\tB = 2\n)": "[]",
		"const (\n\tA = 1 // one\n\tB = 2\n)":        "[B]",
		"var V, W int":                               "[V W]",
	} {
		f, err := parser.ParseFile(token.NewFileSet(), "a.go", "package a\n"+text, parser.ParseComments)
		if err != nil {
			t.Fatal(err)
		}
		if got := fmt.Sprint(undocumented(f)); got != want {
			t.Errorf("%q: %s, want %s", text, got, want)
		}
	}
}
