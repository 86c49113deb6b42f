package main

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"flag"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the golden files")

// systems are those the program is built for; what it contains differs a little.
var systems = []string{"linux/amd64", "linux/arm64", "darwin/arm64", "windows/amd64"}

// standard is the library that comes with Go, linked into every program.
const standard = "Go standard library and runtime"

// legal is how the files are called that hold licenses and notices.
var legal = regexp.MustCompile(`(?i)^((un)?licen[cs]e|copying|copyright|notice|patents)\b|-licen[cs]e\b`)

// further are files of other names that hold a license, and embedded data with one of its own.
var further = map[string][]string{
	"golang.org/x/image": {"font/gofont/ttfs/README"}, // of the Go fonts, which are linked as Go code
}

// A license is one file of a module, or of Go itself.
type license struct {
	Module, File string
	Text         string
}

// TestNotices holds notices.txt against what is really linked: every module, and Go itself, with the full text of each
// of its license and notice files, as its license asks for; Apache-2.0, section 4 (d), asks for the text of NOTICE.
func TestNotices(t *testing.T) {
	all := linkedLicenses(t)
	if *update {
		if err := os.WriteFile("notices.txt", []byte(noticesOf(all)), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	for _, l := range all {
		if !strings.Contains(notices, "\n"+l.Module+": "+l.File) {
			t.Errorf("notices.txt does not name %s of %s", l.File, l.Module)
		} else if !strings.Contains(notices, l.Text) {
			t.Errorf("%s of %s has another text than in notices.txt", l.File, l.Module)
		}
	}
	if notices != noticesOf(all) {
		t.Error("notices.txt is not what is linked; look at the difference after: go test ./cmd/halfturn -run " +
			"Notices -update")
	}
	if status, out, _ := call(t, nil, "version", "--notices"); status != exitDone || out != notices {
		t.Errorf("exit status %d, %d bytes", status, len(out))
	}
}

// seen are texts that are of none of the permitted kinds, and why they may be there.
var seen = map[string]string{
	"modernc.org/sqlite: LICENSE-SQLITE": "public domain",
	"modernc.org/sqlite: LICENSE-3RD-PARTY.md": "lists others and says which of them reach a " +
		"program: those are of permitted kinds or public domain",
	"modernc.org/libc: LICENSE-3RD-PARTY.md":                         "lists others, all of permitted kinds",
	"modernc.org/memory: LICENSE-LOGO":                               "of a picture that is not linked",
	"gonum.org/v1/gonum: THIRD_PARTY_LICENSES/Sun-LICENSE":           "asks for the notice alone",
	"gonum.org/v1/gonum: THIRD_PARTY_LICENSES/Boost-LICENSE":         "as MIT, and asks nothing of a program",
	"gonum.org/v1/gonum: THIRD_PARTY_LICENSES/Bogaert-LICENSE":       "as MIT, in other words",
	"gonum.org/v1/gonum: THIRD_PARTY_LICENSES/W3C-TestSuite-LICENSE": "of test data, not linked",
}

// TestLicensesArePermitted: what is linked may be used and passed on with a program under the Apache License.
func TestLicensesArePermitted(t *testing.T) {
	modules := map[string]bool{}
	unused := maps.Clone(seen)
	for _, l := range linkedLicenses(t) {
		name := l.Module + ": " + l.File
		kind := kindOfLicense(l.Text)
		delete(unused, name)
		switch {
		case kind == "" && seen[name] == "" && !aside(l.File):
			t.Errorf("%s is of no permitted kind: MIT, BSD, ISC or Apache-2.0:\n%.300s", name, l.Text)
		case kind != "" && !strings.Contains(l.File, "/"):
			modules[l.Module] = true
		}
	}
	for name := range unused {
		t.Errorf("%s is not there any more", name)
	}
	for _, m := range slices.Sorted(maps.Keys(linkedModules(t))) {
		if !modules[m] {
			t.Errorf("%s has no license of its own of a permitted kind", m)
		}
	}
	for text, want := range map[string]string{"Mozilla Public License, version 2.0": "",
		"GNU GENERAL PUBLIC LICENSE\nVersion 3": "", "": ""} {
		if got := kindOfLicense(text); got != want {
			t.Errorf("%q is taken for %s", text, got)
		}
	}
}

// aside reports whether a file goes with a license: a notice, or a grant of patents.
func aside(file string) bool {
	base := filepath.Base(file)
	return strings.HasPrefix(base, "NOTICE") || strings.HasPrefix(base, "PATENTS")
}

// refused are the licenses that are not permitted.
var refused = regexp.MustCompile(`(?i)GNU (lesser |affero |library )?general public|mozilla public license|` +
	`creative commons|non-commercial purposes only`)

// kindOfLicense knows a license by sentences that no other has; "" where it is of no permitted kind.
func kindOfLicense(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	has := func(words ...string) bool {
		return !slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(text, w) })
	}
	switch {
	case refused.MatchString(text):
		return ""
	case has("Apache License Version 2.0, January 2004"):
		return "Apache-2.0"
	case has("Redistribution and use in source and binary forms", "Redistributions of"):
		return "BSD"
	case has("Permission is hereby granted, free of charge, to any person obtaining a copy",
		"substantial portions of the Software"):
		return "MIT"
	case has("Permission to use, copy, modify, and/or distribute this software for any purpose"):
		return "ISC"
	}
	return ""
}

// linkedModules returns the folders that the packages of each linked module, and the data they embed, are in: by path,
// from the module's root on, which comes first.
func linkedModules(t *testing.T) map[string][]string {
	t.Helper()
	modules := map[string][]string{}
	for _, system := range systems {
		goos, goarch, _ := strings.Cut(system, "/")
		cmd := exec.Command("go", "list", "-deps", "-json=Dir,EmbedFiles,Module", ".")
		cmd.Env = append(os.Environ(), "GOOS="+goos, "GOARCH="+goarch, "CGO_ENABLED=0")
		out, err := cmd.Output()
		if err != nil {
			t.Fatalf("go list for %s: %v", system, err)
		}
		for dec := json.NewDecoder(bytes.NewReader(out)); ; {
			var p struct {
				Dir        string
				EmbedFiles []string
				Module     *struct {
					Path, Dir string
					Main      bool
				}
			}
			if err := dec.Decode(&p); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatal(err)
			}
			if p.Module == nil || p.Module.Main {
				continue
			}
			dirs := modules[p.Module.Path]
			add := func(d string) {
				for ; strings.HasPrefix(d, p.Module.Dir); d = filepath.Dir(d) {
					if !slices.Contains(dirs, d) {
						dirs = append(dirs, d)
					}
				}
			}
			add(p.Dir)
			for _, f := range p.EmbedFiles {
				add(filepath.Dir(filepath.Join(p.Dir, f)))
			}
			slices.Sort(dirs)
			modules[p.Module.Path] = dirs
		}
	}
	if len(modules) < 20 {
		t.Fatalf("only %d modules are linked", len(modules))
	}
	return modules
}

// linkedLicenses reads the license and notice files of what is linked: those beside the packages and above them,
// and what a module keeps of others at its root.
func linkedLicenses(t *testing.T) (all []license) {
	t.Helper()
	read := func(module, root, file string) {
		data, err := os.ReadFile(filepath.Join(root, file))
		if err != nil {
			t.Fatal(err)
		}
		text := strings.TrimSpace(strings.ReplaceAll(string(data), "\r\n", "\n"))
		all = append(all, license{module, filepath.ToSlash(file), text})
	}
	for module, dirs := range linkedModules(t) {
		root := dirs[0]
		third := filepath.Join(root, "THIRD_PARTY_LICENSES")
		if _, err := os.Stat(third); err == nil {
			dirs = append(dirs, third)
		}
		for _, dir := range dirs {
			files, err := os.ReadDir(dir)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range files {
				if file, err := filepath.Rel(root, filepath.Join(dir, f.Name())); err == nil && isLegal(f) {
					read(module, root, file)
				}
			}
		}
		for _, file := range further[module] {
			read(module, root, file)
		}
	}
	out, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{"LICENSE", "PATENTS"} {
		read(standard, strings.TrimSpace(string(out)), file)
	}
	slices.SortFunc(all, func(a, b license) int {
		return cmp.Or(cmp.Compare(a.Module, b.Module),
			cmp.Compare(a.File, b.File))
	})
	return all
}

func isLegal(f fs.DirEntry) bool {
	return f.Type().IsRegular() && filepath.Ext(f.Name()) != ".go" && legal.MatchString(f.Name())
}

// noticesOf writes the notices: each text once, below all that it is of.
func noticesOf(all []license) string {
	var b strings.Builder
	b.WriteString("Halfturn contains, beside its own code, what is listed here, under the licenses that follow.\n" +
		"Halfturn itself is under the Apache License, version 2.0.\n" +
		"Written by: go test ./cmd/halfturn -run Notices -update\n\n")
	var last string
	for _, l := range all {
		if l.Module != last {
			last = l.Module
			fmt.Fprintln(&b, "  "+last)
		}
	}
	said := map[string]bool{}
	for i, l := range all {
		if said[l.Text] {
			continue
		}
		said[l.Text] = true
		b.WriteString("\n" + strings.Repeat("=", 78) + "\n")
		for _, same := range all[i:] {
			if same.Text == l.Text {
				fmt.Fprintf(&b, "%s: %s\n", same.Module, same.File)
			}
		}
		b.WriteString(strings.Repeat("-", 78) + "\n\n" + l.Text + "\n")
	}
	return b.String()
}
