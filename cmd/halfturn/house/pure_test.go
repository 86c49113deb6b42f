package house

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// standard are the packages of the standard library that pure code may import: they compute.
var standard = []string{
	"bytes", "cmp", "embed", "encoding", "encoding/binary", "encoding/csv", "encoding/hex", "encoding/json",
	"encoding/xml",
	"errors", "fmt", "hash/crc32", "io", "io/fs", "iter", "maps", "math", "math/bits", "math/rand/v2", "net/netip",
	"path",
	"path/filepath", "reflect", "regexp", "slices", "sort", "strconv", "strings", "sync", "text/tabwriter", "time",
	"unicode", "unicode/utf16", "unicode/utf8",
}

// foreign are the packages of others that pure code may import, and why.
var foreign = map[string]string{
	"github.com/pelletier/go-toml/v2":          "decodes TOML from memory",
	"github.com/pelletier/go-toml/v2/unstable": "parses TOML in memory, to know where a key stands",
	"github.com/segmentio/encoding/json":       "encodes and decodes JSON in memory",
	"golang.org/x/text/cases":                  "folds the case of names",
	"golang.org/x/text/unicode/norm":           "normalizes names",
	"gonum.org/v1/gonum/dsp/fourier":           "Fourier transform",
	"gonum.org/v1/gonum/interp":                "monotone interpolation",
}

// parts are the functions and types that pure code may use of packages of which the rest reaches the clock, the disk or
// other goroutines, or holds a state of its own.
var parts = map[string][]string{
	"math/rand/v2":  {"New", "NewPCG", "PCG", "Rand", "Source"},
	"path/filepath": {"Base", "Clean", "Dir", "Ext", "FromSlash", "Join", "ToSlash"},
	"sync":          {"OnceValue", "OnceValues"}, // a constant that is computed when it is first needed
	"time": {"Date", "Duration", "Hour", "Layout", "Microsecond", "Millisecond", "Minute", "Month", "Nanosecond",
		"Parse",
		"RFC3339", "RFC3339Nano", "Second", "Time", "UTC", "Unix"},
}

// banned are functions of a package that is otherwise allowed.
var banned = map[string][]string{
	"fmt": {"Print", "Printf", "Println", "Scan", "Scanf", "Scanln"},
}

// TestPurePackages: what .ci/packages calls pure imports only pure packages and what the lists above allow, starts no
// goroutine, uses no channel, and changes no variable of its package.
func TestPurePackages(t *testing.T) {
	kinds := readPackages(t)
	n := 0
	for _, p := range allPackages(t) {
		if kinds[p.ImportPath] != "pure" {
			continue
		}
		n++
		for _, d := range p.Imports {
			own := strings.HasPrefix(d, "halfturn/")
			switch {
			case own && kinds[d] != "pure":
				t.Errorf("%s imports %s, which is not pure", p.ImportPath, d)
			case !own && foreign[d] == "" && !slices.Contains(standard, d):
				t.Errorf("%s imports %s, which pure code may not", p.ImportPath, d)
			}
		}
		files, parsed := parse(t, p)
		for _, fault := range impurities(files, parsed) {
			t.Error(fault)
		}
	}
	if n < 10 {
		t.Errorf("only %d packages are pure", n)
	}
}

// TestSerialPackages: what .ci/packages calls serial reads and writes, but starts no goroutine and shares nothing with
// one: the race detector has nothing to find there either.
func TestSerialPackages(t *testing.T) {
	kinds := readPackages(t)
	for _, p := range allPackages(t) {
		if kinds[p.ImportPath] != "serial" {
			continue
		}
		files, parsed := parse(t, p)
		for _, fault := range impurities(files, parsed) {
			for _, why := range []string{goroutine, channel, "uses sync."} {
				if strings.Contains(fault, why) {
					t.Error(fault)
				}
			}
		}
		if slices.Contains(p.Imports, "sync/atomic") {
			t.Errorf("%s imports sync/atomic", p.ImportPath)
		}
	}
}

// parse reads the code of a package.
func parse(t *testing.T, p goPackage) (files *token.FileSet, parsed []*ast.File) {
	t.Helper()
	files = token.NewFileSet()
	for _, name := range p.GoFiles {
		f, err := parser.ParseFile(files, filepath.Join(p.Dir, name), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		parsed = append(parsed, f)
	}
	return files, parsed
}

// What impurities says of concurrency.
const (
	goroutine = "starts a goroutine"
	channel   = "uses a channel"
)

// impurities lists what the files of a package do that pure code must not, each with its place.
func impurities(files *token.FileSet, parsed []*ast.File) (faults []string) {
	vars := packageVars(parsed)
	for _, f := range parsed {
		imports := importNames(f)
		fault := func(n ast.Node, format string, args ...any) {
			faults = append(faults, fmt.Sprintf("%v: %s", files.Position(n.Pos()), fmt.Sprintf(format, args...)))
		}
		changed := func(x ast.Expr) {
			if v := rootVar(x); v != nil && vars[v.Name] && (v.Obj == nil || f.Scope.Lookup(v.Name) == v.Obj) {
				fault(x, "changes the package's variable %s", v.Name)
			}
		}
		ast.Inspect(f, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.GoStmt:
				fault(n, goroutine)
			case *ast.ChanType, *ast.SelectStmt, *ast.SendStmt:
				fault(n, channel)
			case *ast.AssignStmt:
				if n.Tok != token.DEFINE {
					for _, x := range n.Lhs {
						changed(x)
					}
				}
			case *ast.IncDecStmt:
				changed(n.X)
			case *ast.CallExpr:
				if name, ok := n.Fun.(*ast.Ident); ok && (name.Name == "delete" || name.Name == "clear") &&
					len(n.Args) > 0 {
					changed(n.Args[0])
				}
			case *ast.SelectorExpr:
				if path, name := qualified(imports, n); path != "" && !mayUse(path, name) {
					fault(n, "uses %s.%s", path, name)
				}
			}
			return true
		})
	}
	return faults
}

// mayUse reports whether pure code may use a name of a package.
func mayUse(path, name string) bool {
	if list, ok := parts[path]; ok {
		return slices.Contains(list, name)
	}
	return !slices.Contains(banned[path], name)
}

// qualified is the package and the name of an expression such as time.Second; "" when x is no package.
func qualified(imports map[string]string, e *ast.SelectorExpr) (path, name string) {
	x, ok := e.X.(*ast.Ident)
	if !ok || x.Obj != nil {
		return "", ""
	}
	return imports[x.Name], e.Sel.Name
}

// importNames are the paths of a file's imports, by the names that they have in it.
func importNames(f *ast.File) map[string]string {
	names := map[string]string{}
	for _, s := range f.Imports {
		path, _ := strconv.Unquote(s.Path.Value)
		name := strings.TrimSuffix(path, "/v2")
		name = name[strings.LastIndexByte(name, '/')+1:]
		if s.Name != nil {
			name = s.Name.Name
		}
		names[name] = path
	}
	return names
}

// packageVars are the names of the variables of a package.
func packageVars(parsed []*ast.File) map[string]bool {
	vars := map[string]bool{}
	for _, f := range parsed {
		for _, d := range f.Decls {
			g, ok := d.(*ast.GenDecl)
			if !ok || g.Tok != token.VAR {
				continue
			}
			for _, s := range g.Specs {
				for _, n := range s.(*ast.ValueSpec).Names {
					vars[n.Name] = true
				}
			}
		}
	}
	return vars
}

// rootVar is the variable at the beginning of v, v.f, v[i], (*v).f and the like; nil when there is none.
func rootVar(x ast.Expr) *ast.Ident {
	for {
		switch e := x.(type) {
		case *ast.Ident:
			return e
		case *ast.SelectorExpr:
			x = e.X
		case *ast.IndexExpr:
			x = e.X
		case *ast.SliceExpr:
			x = e.X
		case *ast.StarExpr:
			x = e.X
		case *ast.ParenExpr:
			x = e.X
		default:
			return nil
		}
	}
}

// The rules themselves: each line of source breaks one, or none.
func TestImpurities(t *testing.T) {
	for source, want := range map[string]string{
		"func f() { go f() }":                                         "starts a goroutine",
		"func f(c chan int) {}":                                       "uses a channel",
		"func f() { select {} }":                                      "uses a channel",
		"var v int\nfunc f() { v = 1 }":                               "changes the package's variable v",
		"var v int\nfunc f() { v++ }":                                 "changes the package's variable v",
		"var v map[int]int\nfunc f() { v[1] = 2 }":                    "changes the package's variable v",
		"var v map[int]int\nfunc f() { delete(v, 1) }":                "changes the package's variable v",
		"var v struct{ a []int }\nfunc f() { v.a[0] += 2 }":           "changes the package's variable v",
		"var v *struct{ a int }\nfunc f() { (*v).a = 2 }":             "changes the package's variable v",
		"var v = 1\nfunc f() int { v := 2; v = 3; return v }":         "",
		"var v = 1\nfunc f(v []int) { v[0] = 1 }":                     "",
		"import \"time\"\nvar _ = time.Now()":                         "uses time.Now",
		"import w \"time\"\nfunc f() { w.Sleep(1) }":                  "uses time.Sleep",
		"import \"time\"\nfunc f(t time.Time) { t.Sub(t) }":           "",
		"import \"fmt\"\nfunc f() { fmt.Println() }":                  "uses fmt.Println",
		"import \"math/rand/v2\"\nfunc f() int { return rand.Int() }": "uses math/rand/v2.Int",
		"import \"sync\"\nvar m sync.Mutex":                           "uses sync.Mutex",
	} {
		files := token.NewFileSet()
		f, err := parser.ParseFile(files, "a.go", "package a\n"+source, 0)
		if err != nil {
			t.Fatal(err)
		}
		got := strings.Join(impurities(files, []*ast.File{f}), "; ")
		if (want == "") != (got == "") || !strings.Contains(got, want) {
			t.Errorf("%q gives %q, want %q", source, got, want)
		}
	}
}
