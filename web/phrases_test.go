package web

import (
	"go/ast"
	"go/parser"
	"go/token"
	"maps"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/coach/brief"
	"halfturn/coach/maneuver"
	"halfturn/coach/plan"
	"halfturn/coach/talk"
	"halfturn/configs"
	"halfturn/configs/guide"
	"halfturn/stream"
)

// phrases are what the server may say to a reader or a listener, by where it comes from. The pages'
// tests hold the translation against them.
type phrases map[string]map[string]bool

func (p phrases) add(from string, words ...string) {
	if p[from] == nil {
		p[from] = map[string]bool{}
	}
	for _, w := range words {
		if w != "" {
			p[from][w] = true
		}
	}
}

// TestPhrases holds what the server may say against testdata/phrases.json; go test -update writes it.
func TestPhrases(t *testing.T) {
	p := phrases{}
	p.cards(t)
	for _, dir := range []string{"judge", "leg", "follow", "sampling", "score", "talk"} {
		p.sources(t, "coach", "../coach/"+dir)
	}
	for _, w := range talk.Words() {
		p.add("callouts", strings.ReplaceAll(w, "%.0f", "105"))
	}
	p.setup(t)
	out := map[string][]string{}
	for from, set := range p {
		out[from] = slices.Sorted(maps.Keys(set))
	}
	got := indent(t, out) + "\n"
	golden(
		t,
		"testdata/phrases.json",
		got,
		"what is said has changed; if it should, run go test -update, then the pages' tests, which ask for its German",
	)
}

// cards adds what the shipped cards say, with the numbers of each aircraft.
func (p phrases) cards(t *testing.T) {
	t.Helper()
	lib, err := maneuver.LoadLibrary(configs.FS)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range lib.Standards() {
		p.add("titles", s.Title)
	}
	for _, a := range lib.Aircraft() {
		p.add("titles", a.Title)
	}
	p.add("titles", coach.AutoTitle)
	for _, card := range lib.Cards() {
		p.add("titles", card.Title)
		p.add("summaries", card.Summary)
		p.add("errors", card.Errors...)
		for _, ph := range card.Phases {
			p.add("phases", ph.Name)
		}
		for _, k := range card.Checks {
			p.add("checks", k.Label)
			p.add("callouts", k.High, k.Low)
		}
		for _, w := range card.Watches {
			p.add("callouts", w.High, w.Low)
		}
		for _, a := range append(lib.Aircraft(), nil) {
			made := plan.New(card, a)
			for _, c := range card.AllCues {
				p.add("callouts", made.Phrase(c.Say, c.Of, "2 7 0"))
			}
			for _, c := range brief.New(made).Plan.Checkpoints {
				p.add("checkpoints", c.Words)
			}
		}
	}
}

// verb is where a number stands in a format.
var verb = regexp.MustCompile(`%(0?\d*\.?\d*)[dfg]`)

// spoken are the members and variables of the sources that hold what is said.
var spoken = []string{"say", "advice", "other", "words", "Words", "reason", "Reason", "Note", "Label"}

// sources adds the phrases written in the Go files of a folder, with numbers in place of verbs.
func (p phrases) sources(t *testing.T, from, dir string) {
	t.Helper()
	files, err := filepath.Glob(dir + "/*.go")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range files {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.KeyValueExpr:
				if id, ok := n.Key.(*ast.Ident); ok && slices.Contains(spoken, id.Name) {
					p.literals(from, n.Value)
				}
			case *ast.AssignStmt:
				for i := range n.Lhs {
					if len(n.Lhs) == len(n.Rhs) && isSpoken(n.Lhs[i]) {
						p.literals(from, n.Rhs[i])
					}
				}
			case *ast.ValueSpec:
				if n.Names[0].Name == "limitTable" {
					p.literals(from, n.Values[0])
				}
			}
			return true
		})
	}
}

func isSpoken(e ast.Expr) bool {
	s, ok := e.(*ast.SelectorExpr)
	return ok && slices.Contains(spoken, s.Sel.Name)
}

// measures are only said of the ball, within a longer phrase.
const measures = "width"

// literals adds the phrases of an expression: whole ones of two words or more, without words put in. A phrase may go
// on over several lines.
func (p phrases) literals(from string, e ast.Expr) {
	ast.Inspect(e, func(n ast.Node) bool {
		e, ok := n.(ast.Expr)
		if !ok {
			return true
		}
		words, ok := written(e)
		if !ok {
			return true
		}
		whole := strings.Contains(words, " ") && strings.TrimSpace(words) == words
		if whole && !strings.Contains(words, "%s") && !strings.Contains(words, measures) {
			p.add(from, strings.ReplaceAll(verb.ReplaceAllString(words, "5"), "%%", "%"))
		}
		return false
	})
}

// written is the text of a literal, or of literals that are joined; ok is false of any other expression.
func written(e ast.Expr) (words string, ok bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		words, err := strconv.Unquote(e.Value)
		return words, e.Kind == token.STRING && err == nil
	case *ast.BinaryExpr:
		x, ok := written(e.X)
		y, ok2 := written(e.Y)
		return x + y, ok && ok2
	}
	return "", false
}

// setup adds the channels, and how simulators are set up.
func (p phrases) setup(t *testing.T) {
	t.Helper()
	for c := range stream.NumChannels {
		p.add("channels", c.Info().Title)
	}
	guides, err := guide.All()
	if err != nil {
		t.Fatal(err)
	}
	for _, g := range guides {
		p.add("guides", append([]string{g.Title, g.Short, g.Say, g.Port, g.Quality, g.Notes}, g.Steps...)...)
	}
}
