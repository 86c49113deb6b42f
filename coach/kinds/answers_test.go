package kinds_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"halfturn/coach/check"
	"halfturn/coach/kinds"
)

// optional are the fields of a kind that may be empty; of Leg and Series exactly one is.
var optional = []string{"Needs", "Allows", "Leg", "Series"}

// Every kind answers everything there is to know about a kind, and is in the list of all.
func TestKindsAnswer(t *testing.T) {
	names := map[string]bool{}
	for _, k := range kinds.All() {
		if names[k.Name] {
			t.Errorf("two kinds are called %q", k.Name)
		}
		names[k.Name] = true
		v := reflect.ValueOf(k).Elem()
		for i := range v.NumField() {
			if field := v.Type().Field(i).Name; v.Field(i).IsZero() && !slices.Contains(optional, field) {
				t.Errorf("kind %s does not answer %s", k.Name, field)
			}
		}
		if (k.Leg == nil) == (k.Series == nil) {
			t.Errorf("kind %s judges a leg or a series: one of Leg and Series is given", k.Name)
		}
		if k.OfSeries() != (k.Looks == check.AcrossLegs) {
			t.Errorf("kind %s judges a series, so that it looks across legs, or neither", k.Name)
		}
	}
	if n := written(t); n != len(names) {
		t.Errorf("the package writes %d kinds, the list of all has %d", n, len(names))
	}
}

// written counts the kinds that the files of the package write.
func written(t *testing.T) (n int) {
	t.Helper()
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) == 0 {
		t.Fatalf("%d files, %v", len(files), err)
	}
	for _, name := range files {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(node ast.Node) bool {
			lit, ok := node.(*ast.CompositeLit)
			if !ok || len(lit.Elts) == 0 {
				return true
			}
			if of, ok := lit.Type.(*ast.SelectorExpr); ok && of.Sel.Name == "Kind" && !strings.HasSuffix(name, "_test.go") {
				n++
			}
			return true
		})
	}
	return n
}
