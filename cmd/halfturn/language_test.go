package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The language of what is printed: the flag holds before the environment, that before the configuration, and without
// any it is English. The sentences are those of the pages' tables, web/static/text.
func TestLanguage(t *testing.T) {
	config := filepath.Join(t.TempDir(), "halfturn.toml")
	if err := os.WriteFile(config, []byte("language = 'es'\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	data := t.TempDir()
	german := map[string]string{"HALFTURN_LANGUAGE": "de"}
	for _, tt := range []struct {
		env    map[string]string
		args   []string
		status int
		want   string
	}{
		{nil, nil, exitFailed, "is neither a session"},
		{nil, []string{"--language", "de"}, exitFailed, "ist weder eine Sitzung"},
		{german, nil, exitFailed, "ist weder eine Sitzung"},
		{german, []string{"--language", "es"}, exitFailed, "no es ni una sesión"},
		{nil, []string{"--config", config}, exitFailed, "no es ni una sesión"},
		{nil, []string{"--config", config, "--language", "en"}, exitFailed, "is neither a session"},
		{nil, []string{"--language", "fr"}, exitUsage, "--language is \"fr\"; must be en, de or es"},
		{map[string]string{"HALFTURN_LANGUAGE": "fr"}, nil, exitUsage,
			"HALFTURN_LANGUAGE: is \"fr\"; must be en, de or es"},
	} {
		args := append([]string{"sessions", "export", "none", "--data", data}, tt.args...)
		status, _, errs := call(t, tt.env, args...)
		if !strings.Contains(errs, tt.want) || status == exitDone {
			t.Errorf("%v, %v: status %d, %q; must say %q", tt.env, args, status, errs, tt.want)
		}
	}
}

// TestPrintedLanguage reads a printed debrief with poppler.
func TestPrintedLanguage(t *testing.T) {
	name := filepath.Join(t.TempDir(), "d.pdf")
	status, _, errs := call(t, nil, "sessions", "export", recordedFlight, "--maneuver", "wing-over", "--format", "pdf",
		"-o", name, "--language", "es")
	if status != exitDone {
		t.Fatalf("status %d: %s", status, errs)
	}
	out, err := exec.Command("pdftotext", "-layout", name, "-").Output()
	if err != nil {
		t.Fatalf("pdftotext: %v; install poppler-utils", err)
	}
	for _, want := range []string{
		"a la derecha", "Alabeo a 45°", "cumplido", "anchos de bola",
		"Solo para practicar en simulador.",
	} {
		if !strings.Contains(string(out), want) {
			t.Errorf("lacks %q:\n%s", want, out)
		}
	}
}
