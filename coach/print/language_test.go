package print_test

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"halfturn/coach/print"
	"halfturn/web/languages"
)

// english are words that tell a line that is not in the language of the print.
var english = regexp.MustCompile(
	`(?i)\b(the|of|leg|standard flown|checks|checked|within|score|grade|page|remarks|student|aircraft|not|what)\b`)

// written are words of the test's own, which stay as people wrote them.
var written = regexp.MustCompile(`The nose was high\.|Pull less\.|Pull more gently in the first 45°\.|Nose up`)

// TestLanguages reads the print in each language: nothing in it is English but what people wrote.
func TestLanguages(t *testing.T) {
	for code, wants := range map[string][]string{
		"de": {"Nachbesprechung", "Nur zum Üben im Simulator.", "Seite 1 von 2", "−74,1°", "60 bis 90°",
			"mindestens 65 kt", "nicht gemessen", "Querlage bei 90°", "Fluglehrer"},
		"es": {"Análisis", "Solo para practicar en simulador.", "página 1 de 2", "−74,1°", "de 60 a 90°",
			"al menos 65 kt", "no medido", "Alabeo a 90°", "Instructor"},
	} {
		t.Run(code, func(t *testing.T) {
			l, err := languages.Load(os.DirFS("../../web/static"), code)
			if err != nil {
				t.Fatal(err)
			}
			d := flown()
			d.Language = l
			text := readBack(t, d)
			for _, want := range wants {
				joined := strings.ReplaceAll(want, " kt", "\u00a0kt")
				if !strings.Contains(text, want) && !strings.Contains(text, joined) {
					t.Errorf("lacks %q:\n%s", want, text)
				}
			}
			for _, line := range strings.Split(written.ReplaceAllString(text, ""), "\n") {
				if found := english.FindString(line); found != "" {
					t.Errorf("%q is English in %q", found, line)
				}
			}
		})
	}
}

// TestOnePageInLanguages reads the one page of a leg in each language.
func TestOnePageInLanguages(t *testing.T) {
	for code, wants := range map[string][]string{
		"de": {"nach rechts", "Das eine, was zu ändern ist", "die schlechtesten zuerst", "nicht gemessen",
			"Fluglehrer"},
		"es": {"a la derecha", "Lo que hay que cambiar", "primero los peores", "no medido", "Instructor"},
	} {
		l, err := languages.Load(os.DirFS("../../web/static"), code)
		if err != nil {
			t.Fatal(err)
		}
		d := flown()
		d.All, d.Language = false, l
		text := readBack(t, d)
		for _, want := range wants {
			if !strings.Contains(text, want) {
				t.Errorf("%s: lacks %q:\n%s", code, want, text)
			}
		}
		for _, line := range strings.Split(written.ReplaceAllString(text, ""), "\n") {
			if found := english.FindString(line); found != "" {
				t.Errorf("%s: %q is English in %q", code, found, line)
			}
		}
	}
}

// readBack prints a debrief and reads it with poppler.
func readBack(t *testing.T, d *print.Debrief) string {
	t.Helper()
	name := filepath.Join(t.TempDir(), "d.pdf")
	var b bytes.Buffer
	if err := print.Write(&b, "a4", d); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, b.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command("pdftotext", "-layout", name, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v; install poppler-utils", err)
	}
	return string(out)
}
