package web

import (
	"go/ast"
	"go/parser"
	"go/token"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/debrief"
	"halfturn/coach/maneuver"
	"halfturn/configs"
)

// A source says where words for people stand in Go files: in functions, in composite literals of
// types, in calls, in variables. What is said of a stream is advice, what is refused a refusal.
type source struct {
	from                    string
	files                   string
	funcs, types, calls, at []string
}

// sources of what is told to whoever asked or sends. A misuse of the API is not among them: no page
// causes one.
var answers = []source{
	{from: "refusals", files: "../coach/archive/folder/notes.go", funcs: []string{"Sound Notes"}},
	{from: "refusals", files: "../coach/archive/folder/stored.go", at: []string{"errBare"}},
	{from: "advice", files: "../coach/archive/await.go", at: []string{"errMending"}},
	{from: "refusals", files: "../coach/archive/folder/*.go", types: []string{"Refused"}},
	{from: "refusals", files: "../coach/archive/*.go", types: []string{"Refused"}, at: []string{"Problem"}},
	{from: "refusals", files: "../coach/logbook/*.go", types: []string{"Refused"}, funcs: []string{"Error NotFound"},
		at: []string{"Problem"}},
	{from: "refusals", files: "../coach/logbook/sqlite/query/*.go", types: []string{"Refused"}},
	{from: "refusals", files: "../coach/maneuver/library.go",
		funcs: []string{"asWritten Library", "standardNamed Library", "AircraftNamed Library"}},
	{from: "refusals", files: "../coach/aero/solve.go", calls: []string{"Errorf"}},
	{from: "refusals", files: "../coach/aero/path.go", calls: []string{"Errorf"}},
	{from: "refusals", files: "../coach/plan/plan.go", at: []string{"Problem"}},
	{from: "refusals", files: "../stream/capture/*.go", types: []string{"FormatError"},
		funcs: []string{"Error CutError", "Error FormatError", "check Limits"}},
	{from: "refusals", files: "../coach/archive/take/*.go", types: []string{"Refused"}, calls: []string{"say"}},
	{from: "refusals", files: "../coach/stored/find.go", funcs: []string{"Find "}},
	{from: "advice", files: "../stream/record/*.go", funcs: []string{"Words "}},
	{from: "advice", files: "../coach/archive/take/importer.go", funcs: []string{"notGradable "}},
}

// told adds what the server answers when it cannot do what was asked, and what it says of a stream.
func (p phrases) told(t *testing.T) {
	t.Helper()
	for _, s := range answers {
		files, err := filepath.Glob(s.files)
		if err != nil || len(files) == 0 {
			t.Fatalf("%s: no files, %v", s.files, err)
		}
		found := 0
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
			if err != nil {
				t.Fatal(err)
			}
			r := reading{source: s, consts: constsOf(file), tell: func(words string) {
				found++
				words = strings.TrimPrefix(words, "reference path: ")
				for _, joint := range []string{": ", "; ", ", "} { // at which the pages take it apart
					words = strings.TrimPrefix(strings.TrimSuffix(words, joint+unknown), unknown+joint)
				}
				if strings.Contains(words, unknown) {
					t.Errorf("%s: %q: quote what is put in, else no page can put it into another language", name, words)
				}
				p.add(s.from, words)
			}}
			ast.Inspect(file, r.node)
		}
		if found == 0 {
			t.Errorf("%s: no words are found there any more", s.files)
		}
	}
}

// A reading goes through one file.
type reading struct {
	source
	consts map[string]string
	tell   func(words string)
}

func (r *reading) node(n ast.Node) bool {
	switch n := n.(type) {
	case *ast.FuncDecl:
		if n.Name.Name == "misuse" {
			return false
		}
		if slices.Contains(r.funcs, n.Name.Name+" "+receiver(n)) {
			r.all(n.Body)
		}
	case *ast.CompositeLit:
		if slices.Contains(r.types, last(n.Type)) {
			r.all(n)
		}
	case *ast.CallExpr:
		if slices.Contains(r.calls, last(n.Fun)) {
			r.all(n)
		}
	case *ast.AssignStmt:
		if slices.Contains(r.at, last(n.Lhs[len(n.Lhs)-1])) {
			r.all(n.Rhs[len(n.Rhs)-1])
		}
	case *ast.ValueSpec:
		if slices.Contains(r.at, n.Names[0].Name) && len(n.Values) > 0 {
			r.all(n.Values[0])
		}
	}
	return true
}

// all tells every text in a node that is words for people: more than one of them.
func (r *reading) all(n ast.Node) {
	ast.Inspect(n, func(n ast.Node) bool {
		if d, ok := n.(*ast.GenDecl); ok && d.Tok == token.CONST {
			return false
		}
		e, ok := n.(ast.Expr)
		if !ok {
			return true
		}
		switch e := e.(type) {
		case *ast.Ident:
			return r.consts[e.Name] == "" // told where it is put together
		case *ast.BinaryExpr:
			if e.Op == token.EQL {
				return false
			}
		case *ast.CallExpr:
			if name := last(e.Fun); name == "HasPrefix" || name == "TrimPrefix" {
				return false
			}
		}
		words := strings.TrimSpace(r.fold(e))
		if strings.Contains(strings.Trim(words, unknown+": "), " ") {
			r.tell(words)
		}
		return words == ""
	})
}

// unknown stands for what is only known when it is said.
const unknown = "\x00"

var putIn = regexp.MustCompile(`%[-+# 0]*[\d.]*[a-zA-Z%]`)

// fold is a text as it is said: with 5 for a number and "x" for a name in quotes; "" when it is none.
func (r *reading) fold(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.BasicLit:
		if words, err := strconv.Unquote(e.Value); err == nil && e.Kind == token.STRING {
			return words
		}
	case *ast.Ident:
		return r.consts[e.Name]
	case *ast.BinaryExpr:
		x, y := r.fold(e.X), r.fold(e.Y)
		if e.Op != token.ADD || x+y == "" {
			return ""
		}
		return or(x, unknown) + or(y, unknown)
	case *ast.CallExpr:
		switch last(e.Fun) {
		case "Quote":
			return `"x"`
		case "Itoa", "FormatInt":
			return "5"
		case "Sprintf", "Errorf":
			return putIn.ReplaceAllStringFunc(r.fold(e.Args[0]), func(verb string) string {
				switch verb[len(verb)-1] {
				case 'q':
					return `"x"`
				case 'd', 'f', 'g':
					return "5"
				case 'x':
					return "x"
				case '%':
					return "%"
				}
				return unknown
			})
		}
	}
	return ""
}

func or(s, otherwise string) string {
	if s == "" {
		return otherwise
	}
	return s
}

// constsOf are the constant texts of a file.
func constsOf(file *ast.File) map[string]string {
	all := map[string]string{}
	ast.Inspect(file, func(n ast.Node) bool {
		d, ok := n.(*ast.GenDecl)
		if !ok || d.Tok != token.CONST {
			return true
		}
		for _, s := range d.Specs {
			if v := s.(*ast.ValueSpec); len(v.Values) == 1 {
				if lit, ok := v.Values[0].(*ast.BasicLit); ok && lit.Kind == token.STRING {
					all[v.Names[0].Name], _ = strconv.Unquote(lit.Value) // the parser took it
				}
			}
		}
		return true
	})
	return all
}

// last is the last name of an expression: of web.Problem or &Problem it is Problem.
func last(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Ident:
		return e.Name
	case *ast.SelectorExpr:
		return e.Sel.Name
	case *ast.StarExpr:
		return last(e.X)
	}
	return ""
}

func receiver(f *ast.FuncDecl) string {
	if f.Recv == nil {
		return ""
	}
	return last(f.Recv.List[0].Type)
}

// differences adds what another grading says otherwise: of each unit, with each kind of band.
func (p phrases) differences(t *testing.T) {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	done := map[string]bool{}
	value, low, high := 5.0, 4.0, 6.0
	bands := [][2]*float64{{&low, &high}, {&low, nil}, {nil, &high}, {&high, &high}}
	for _, card := range lib.Cards() {
		for i := range card.Checks {
			unit := card.UnitOf(&card.Checks[i])
			if done[unit] {
				continue
			}
			done[unit] = true
			k := coach.Check{ID: card.Checks[i].ID, Label: card.Checks[i].Label, Unit: unit, Verdict: coach.Met,
				Value: &value}
			for _, k.Met = range bands {
				p.differ(coach.Leg{Outcome: coach.Finished, Verdict: coach.Met, Score: 90, Grade: coach.Good,
					Checks: []coach.Check{k}})
			}
		}
	}
}

// differ compares a leg with others: one that was given up and judged otherwise, one not judged, and none.
func (p phrases) differ(leg coach.Leg) {
	station := func(legs ...coach.Leg) []debrief.StationReport {
		for i := range legs {
			legs[i].End = 1
		}
		return []debrief.StationReport{{Series: []coach.Series{{Maneuver: "wing-over", Standard: "course",
			Legs: legs}}}}
	}
	other := coach.Leg{Outcome: coach.BrokenOff, Verdict: coach.NotMeasured, Checks: slices.Clone(leg.Checks)}
	for i := range other.Checks {
		other.Checks[i].Value, other.Checks[i].Verdict = nil, coach.NotMeasured
	}
	whole := station(leg)
	for _, is := range [][]debrief.StationReport{station(other),
		station(coach.Leg{Outcome: coach.KnockOff, Verdict: coach.Missed, Grade: coach.Unable}), station()} {
		for _, d := range append(debrief.Compare(whole, is), debrief.Compare(is, whole)...) {
			p.add("differences", d.Words())
		}
	}
}
