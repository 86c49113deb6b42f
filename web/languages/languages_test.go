package languages_test

import (
	"encoding/json"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"halfturn/coach/cause"
	"halfturn/coach/check"
	"halfturn/coach/kinds"
	"halfturn/stream/phrase"
	"halfturn/web/languages"
)

const root = "../.."

// each runs a test of every language but English.
func each(t *testing.T, run func(*testing.T, *phrase.Language)) {
	t.Helper()
	for _, code := range languages.Codes[1:] {
		t.Run(code, func(t *testing.T) {
			l, err := languages.Load(os.DirFS(root+"/web/static"), code)
			if err != nil {
				t.Fatal(err)
			}
			run(t, l)
		})
	}
}

// TestSentences: a language has every sentence of the server, with its places.
func TestSentences(t *testing.T) {
	places := func(s string) []string {
		all := regexp.MustCompile(`\{[a-z]+`).FindAllString(s, -1)
		slices.Sort(all)
		return all
	}
	each(t, func(t *testing.T, l *phrase.Language) {
		for _, d := range phrase.All() {
			words, ok := l.Sentences[d.Code()]
			if !ok {
				t.Errorf("lacks %s: %q", d.Code(), d.English())
			} else if !slices.Equal(places(words), places(d.English())) {
				t.Errorf("%s: %q has other places than %q", d.Code(), words, d.English())
			}
		}
		if len(l.Sentences) > len(phrase.All()) {
			t.Errorf("%d sentences; there are %d", len(l.Sentences), len(phrase.All()))
		}
	})
}

// TestTexts: a language has every text of shipped cards, guides and tables.
func TestTexts(t *testing.T) {
	data, err := os.ReadFile(root + "/web/testdata/texts.json")
	if err != nil {
		t.Fatal(err)
	}
	var all map[string][]string
	if err := json.Unmarshal(data, &all); err != nil || len(all) < 5 {
		t.Fatal(len(all), err)
	}
	each(t, func(t *testing.T, l *phrase.Language) {
		for of, list := range all {
			for _, text := range list {
				if l.Texts[text] == "" {
					t.Errorf("lacks %q, of %s", text, of)
				}
			}
		}
	})
}

// TestWords: a language has all words that prints and commands ask for, by the sources; formats keep their verbs.
func TestWords(t *testing.T) {
	asked := asked(t)
	if len(asked) < 10 {
		t.Fatalf("only %d words are asked for", len(asked))
	}
	verbs := func(s string) []string {
		all := regexp.MustCompile(`%(?:\[\d\])?[a-z]|%\.\df`).FindAllString(s, -1)
		for i := range all {
			all[i] = regexp.MustCompile(`\[\d\]`).ReplaceAllString(all[i], "")
		}
		slices.Sort(all)
		return all
	}
	each(t, func(t *testing.T, l *phrase.Language) {
		for words, where := range asked {
			if l.Words[words] == "" {
				t.Errorf("lacks %q, of %s", words, where)
			} else if !slices.Equal(verbs(words), verbs(l.Words[words])) {
				t.Errorf("%q has other verbs than %q", l.Words[words], words)
			}
		}
	})
}

// asked are the literal words in calls of the methods of a language, and of what passes words on to them, and where.
func asked(t *testing.T) map[string]string {
	t.Helper()
	all := map[string]string{}
	calls(t, dirs, passOn, func(name string, args []ast.Expr) {
		for _, a := range args {
			if words, ok := literal(a); ok {
				if worded.MatchString(words) {
					all[words] = name
				}
				return
			}
		}
	})
	return all
}

// calls visits the calls of functions of these names in the Go files of folders, but for tests.
func calls(t *testing.T, dirs, functions []string, visit func(file string, args []ast.Expr)) {
	t.Helper()
	for _, dir := range dirs {
		err := filepath.WalkDir(filepath.Join(root, dir), func(name string, d fs.DirEntry, err error) error {
			if err != nil || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
				return err
			}
			file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if call, ok := n.(*ast.CallExpr); ok && slices.Contains(functions, called(call)) {
					visit(name, call.Args)
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// called is the name of the function or method that is called.
func called(call *ast.CallExpr) string {
	switch f := call.Fun.(type) {
	case *ast.SelectorExpr:
		return f.Sel.Name
	case *ast.Ident:
		return f.Name
	}
	return ""
}

// TestNoBareEnglish: what commands print, and the errors they make, is put into the language: no function that prints
// takes words as they are.
func TestNoBareEnglish(t *testing.T) {
	seen := map[string]bool{}
	calls(t, commands, printing, func(name string, args []ast.Expr) {
		for _, a := range args {
			words, ok := literal(a)
			seen[words] = true
			if ok && worded.MatchString(verb.ReplaceAllString(words, "")) && !slices.Contains(english, words) {
				t.Errorf("%s: %q is printed in English alone; use Word or Wordf", name, words)
			}
		}
	})
	for _, words := range english {
		if !seen[words] {
			t.Errorf("%q is excused, and nothing prints it", words)
		}
	}
}

// commands are the folders of what is printed at a terminal.
var commands = []string{"cmd/halfturn", "coach/debrief/text", "coach/sheet"}

// printing are the functions that print words or make errors of them.
var printing = []string{"Fprint", "Fprintf", "Fprintln", "Sprintf", "Errorf", "New", "line"}

// verb is a place in a format.
var verb = regexp.MustCompile(`%[-+#]?[\d.]*[a-z]|\\x1b\[[A-Z]`)

// english are words that stay as they are: names, and what is said before there is a language or where none is known.
var english = []string{
	"[tls]\ncertificate = %q\nkey = %q\n\n",
	"%s°\t%s s\t%s°\t%s°\t%s kt\t%s ft\t%s g\t%s\t%s ft\t%s ft\t\n",
	"halfturn %s (%s)\n",
	"halfturn probe  %s\n",
	"halfturn: %s\n",
	"halfturn: %v\n",
	"maneuver", // a key of the configuration

	"halfturn: ended at once, as a second signal asked for; what was not written yet is lost",
	"Press Enter to close this window. ",

	"%d sessions are", // in the server's log, as the next
	"few files may be open at once, so the pages take few connections; a limit of %d (ulimit -n) is enough for all",
}

// literal is a string as it is written in a source, or a sum of such; ok is false for anything else.
func literal(e ast.Expr) (text string, ok bool) {
	switch e := e.(type) {
	case *ast.BasicLit:
		text, err := strconv.Unquote(e.Value)
		return text, err == nil && e.Kind == token.STRING
	case *ast.BinaryExpr:
		x, first := literal(e.X)
		y, second := literal(e.Y)
		return x + y, first && second && e.Op == token.ADD
	}
	return "", false
}

// dirs hold what prints.
var dirs = []string{
	"cmd",
	"coach/brief",
	"coach/debrief",
	"coach/grading",
	"coach/kinds",
	"coach/print",
	"coach/sheet",
	"coach/stored",
	"coach/wording",
	"configs/guide",
	"stream/trainer",
}

// passOn are the methods whose first literal is put into the language.
var passOn = []string{"Word", "Wordf", "word", "wordf", "heading", "Usagef", "Failf", "Wrong", "say"}

// worded tells words from marks.
var worded = regexp.MustCompile(`[A-Za-z]{2}`)

// TestTables: a language has the words of tables that are printed: the meanings of causes, the kinds of check, the
// names of checkpoints.
func TestTables(t *testing.T) {
	words := []string{"out", "live", "paused", "silent", "gone", "certain", "likely", "doubtful", "not recognized",
		"part", "yes", "no", "entry", "legs", "ball widths"}
	for _, m := range cause.Meanings() {
		words = append(words, m.Meaning)
	}
	for _, k := range kinds.All() {
		words = append(words, k.Says)
	}
	each(t, func(t *testing.T, l *phrase.Language) {
		for _, name := range check.QuantityNames() {
			if q, _ := check.QuantityNamed(name); l.Texts[q.Title] == "" && l.Texts[name] == "" {
				t.Errorf("lacks a word for the quantity %s", name)
			}
		}
		for _, english := range words {
			if l.Words[english] == "" {
				t.Errorf("lacks %q", english)
			}
		}
	})
}

// TestPagesAgree: the pages list the same languages.
func TestPagesAgree(t *testing.T) {
	data, err := os.ReadFile(root + "/web/static/text/languages.js")
	if err != nil {
		t.Fatal(err)
	}
	menu := regexp.MustCompile(`languages = \{ (.*) \};`).FindStringSubmatch(string(data))
	if menu == nil {
		t.Fatal("languages.js has no list of languages")
	}
	var codes []string
	for _, entry := range strings.Split(menu[1], ", ") {
		code, _, _ := strings.Cut(entry, ":")
		codes = append(codes, code)
	}
	if !slices.Equal(codes, languages.Codes) {
		t.Errorf("languages.js has %v; must be %v", codes, languages.Codes)
	}
}

func TestLoad(t *testing.T) {
	if l, err := languages.Load(fstest.MapFS{}, "en"); l != nil || err != nil {
		t.Errorf("English: %v, %v", l, err)
	}
	_, err := languages.Load(fstest.MapFS{}, "fr")
	if err == nil || err.Error() != `language is "fr"; must be en, de or es` {
		t.Errorf("%v", err)
	}
	module := "export const form = { name: 'Deutsch', locale: 'de-DE', point: ',', group: '.', ungrouped: 3 };"
	for table, wrong := range map[string]string{
		"":                                          "exports nothing",
		"export const a = {\n  b: c,\n};":           "line 2: a string must stand here",
		"export const a = {\n  b: 'c'\n};":          "line 3: a comma must follow the words",
		"export const a = {\n  b 'c',\n};":          "line 2: a colon must follow the key",
		"export const a = {\n  b: `${c}`,\n};":      "line 2: there is no constant c",
		"export const a = {\n  b: 'c\n',\n};":       "line 2: a string has an escape or a line end",
		"export const a = {\n b: 'c',\n b: 'd',\n}": `line 3: the key "b" stands twice`,
		"export const a = {\n  b: 'c":               "line 2: a string has no end",
	} {
		files := fstest.MapFS{"text/de.js": {Data: []byte(module)}, "text/de/a.js": {Data: []byte(table)}}
		if _, err := languages.Load(files, "de"); err == nil || err.Error() != "text/de/a.js: "+wrong {
			t.Errorf("%q: %v; must be %s", table, err, wrong)
		}
	}
	table := "const x = 'ex';\nexport const a = {\n  // note\n  b: 'c' +\n    'd',\n" +
		"  ['e' + \"f\"]: `${x} g`,\n  u: '\\u00a0',\n  'h.i': 'j\\'k',\n};\n"
	files := fstest.MapFS{"text/de.js": {Data: []byte(module)}, "text/de/a.js": {Data: []byte(table)}}
	l, err := languages.Load(files, "de")
	if err != nil || l.Words["b"] != "cd" || l.Words["ef"] != "ex g" || l.Words["u"] != "\u00a0" ||
		l.Sentences["h.i"] != "j'k" {
		t.Errorf("%+v, %v", l, err)
	}
}
