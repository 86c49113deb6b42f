package phrase_test

import (
	"flag"
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/google/go-cmp/cmp"

	"halfturn/stream/phrase"
)

var update = flag.Bool("update", false, "write the English table of the pages")

type placeOf struct{ name, kind string }

func placesOf(d *phrase.Definition) (all []placeOf) {
	for _, p := range d.Places() {
		name, kind := p.NameAndKind()
		all = append(all, placeOf{name, kind})
	}
	return all
}

// kinds are those of the functions that make arguments.
var kinds = map[string]string{
	"Int":    "number",
	"Number": "number",
	"Name":   "name",
	"Words":  "words",
	"Part":   "phrase",
	"Within": "within",
	"List":   "list",
}

// TestCalls: every sentence is used somewhere, and every use gives it exactly its arguments.
func TestCalls(t *testing.T) {
	places, codes := declared(t)
	used := map[string]bool{}
	for _, path := range sources(t) {
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			if name, ok := sentence(n); ok {
				used[name] = true
			}
			call, ok := n.(*ast.CallExpr)
			if !ok {
				return true
			}
			of, ok := call.Fun.(*ast.SelectorExpr)
			if !ok || of.Sel.Name != "Of" && of.Sel.Name != "Error" {
				return true
			}
			name, ok := sentence(of.X)
			if !ok {
				return true
			}
			if d := cmp.Diff(places[name], given(call)); d != "" {
				t.Errorf("%s: arguments of phrase.%s: %s", path, name, d)
			}
			return true
		})
	}
	for name, code := range codes {
		if !used[name] && ast.IsExported(name) {
			t.Errorf("nothing says phrase.%s (%s)", name, code)
		}
	}
}

// sentence is the X of phrase.X.
func sentence(n ast.Node) (string, bool) {
	s, ok := n.(*ast.SelectorExpr)
	if !ok {
		return "", false
	}
	id, ok := s.X.(*ast.Ident)
	return s.Sel.Name, ok && id.Name == "phrase"
}

// given are the arguments of a call, in the order of their names.
func given(call *ast.CallExpr) (all []string) {
	for _, e := range call.Args {
		words := "not made by this package where it is given"
		if c, ok := e.(*ast.CallExpr); ok {
			if f, ok := c.Fun.(*ast.SelectorExpr); ok && len(c.Args) > 0 {
				if lit, ok := c.Args[0].(*ast.BasicLit); ok {
					name, _ := strconv.Unquote(lit.Value) // the parser took it
					words = name + ": " + kinds[f.Sel.Name]
				}
			}
		}
		all = append(all, words)
	}
	slices.Sort(all)
	return all
}

// declared are the places and the code of each variable of the table.
func declared(t *testing.T) (places map[string][]string, codes map[string]string) {
	t.Helper()
	byCode := map[string]*phrase.Definition{}
	for _, d := range phrase.All() {
		byCode[d.Code()] = d
	}
	places, codes = map[string][]string{}, map[string]string{}
	files, err := filepath.Glob("english_*.go")
	if err != nil || len(files) == 0 {
		t.Fatal("no table, ", err)
	}
	for _, path := range files {
		file, err := parser.ParseFile(token.NewFileSet(), path, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			v, ok := n.(*ast.ValueSpec)
			if !ok {
				return true
			}
			call, ok := v.Values[0].(*ast.CallExpr)
			if !ok { // a text that several sentences share
				return false
			}
			code, err := strconv.Unquote(call.Args[0].(*ast.BasicLit).Value)
			if err != nil {
				t.Fatal(err)
			}
			name := v.Names[0].Name
			codes[name] = code
			for _, p := range placesOf(byCode[code]) {
				places[name] = append(places[name], p.name+": "+p.kind)
			}
			slices.Sort(places[name])
			return false
		})
	}
	if len(codes) != len(byCode) {
		t.Fatalf("%d variables, %d sentences", len(codes), len(byCode))
	}
	return places, codes
}

// sources are the Go files of the module, without its tests and this package.
func sources(t *testing.T) (all []string) {
	t.Helper()
	err := filepath.WalkDir("../..", func(path string, e fs.DirEntry, err error) error {
		switch {
		case err != nil:
			return err
		case e.IsDir() && (e.Name() == "node_modules" || e.Name() == "phrase" || e.Name() == ".git"):
			return fs.SkipDir
		case strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go"):
			all = append(all, path)
		}
		return nil
	})
	if err != nil || len(all) == 0 {
		t.Fatal("no sources, ", err)
	}
	return all
}

// TestPages holds the English table of the pages to this one; go test -update writes it.
func TestPages(t *testing.T) {
	const path = "../../web/static/text/en.js"
	var b strings.Builder
	b.WriteString("// The English sentences of the server by their codes, in one file since they are one table.\n" +
		"// Written by: go test ./stream/phrase -update\n\n")
	b.WriteString("/** @type {Readonly<Record<string, string>>} */\nexport const en = {\n")
	for _, d := range phrase.All() {
		line := fmt.Sprintf("  %s: %s,\n", quote(d.Code()), quote(d.Template()))
		if utf8.RuneCountInString(line) <= 120 {
			b.WriteString(line)
			continue
		}
		fmt.Fprintf(&b, "  %s:\n    %s,\n", quote(d.Code()), strings.Join(broken(d.Template()), " +\n    "))
	}
	b.WriteString("};\n")
	if *update {
		if err := os.WriteFile(path, []byte(b.String()), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	is, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(b.String(), string(is)); d != "" {
		t.Errorf("run go test ./stream/phrase -update, then the tests of the pages, which ask for the German: %s", d)
	}
}

// broken is a text as literals that end within the width of a page.
func broken(text string) (lines []string) {
	const width = 108
	line := ""
	for _, word := range strings.SplitAfter(text, " ") {
		if line != "" && len(line)+len(word) > width {
			lines = append(lines, quote(line))
			line = ""
		}
		line += word
	}
	return append(lines, quote(line))
}

// quote writes a literal of a script.
func quote(s string) string {
	if strings.ContainsRune(s, '\'') {
		return strconv.Quote(s)
	}
	return "'" + s + "'"
}
