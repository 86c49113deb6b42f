package main

import (
	_ "embed" // of the notices
	"fmt"
	"runtime/debug"
)

// version is Halfturn's own, as in CHANGELOG.md.
const version = "0.1.0"

type versionCmd struct {
	Notices bool `help:"Print the licenses of what the program contains beside its own code."`
}

// notices are the licenses of all that is linked. Written by: go test ./cmd/halfturn -run Notices -update
//
//go:embed notices.txt
var notices string

// Run prints the version and what it was built from.
func (v *versionCmd) Run(io streams) error {
	if v.Notices {
		_, err := fmt.Fprint(io.out, notices)
		return err
	}
	built := ""
	if info, ok := debug.ReadBuildInfo(); ok {
		built = info.GoVersion
		for _, s := range info.Settings {
			if s.Key == "vcs.revision" {
				built += ", revision " + s.Value[:min(12, len(s.Value))]
			}
		}
	}
	_, err := fmt.Fprintf(io.out, "halfturn %s (%s)\n", version, built)
	return err
}
