package live

import (
	"strings"
	"testing"

	"halfturn/coach"
	"halfturn/web"
)

// The cautions at the start are told in the language that is printed, though the log is in English.
func TestCautions(t *testing.T) {
	if got := (&Options{}).cautions(); got != strings.Join(coach.Cautions[:], " ") {
		t.Errorf("English: %s", got)
	}
	for code, want := range map[string]string{
		"de": "Nur zum Üben im Simulator.",
		"es": "Solo para practicar en simulador.",
	} {
		in, err := web.Language(code)
		if err != nil {
			t.Fatal(err)
		}
		got := (&Options{Words: in}).cautions()
		if !strings.HasPrefix(got, want) || len(strings.Split(got, ". ")) < len(coach.Cautions) {
			t.Errorf("%s: %s", code, got)
		}
	}
}
