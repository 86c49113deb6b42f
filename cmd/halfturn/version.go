package main

import (
	_ "embed" // of the notices
	"fmt"
	"runtime/debug"

	"halfturn/cmd/halfturn/base"
)

type versionCmd struct {
	Notices bool `help:"Print the licenses of what the program contains beside its own code."`
}

// notices are the licenses of all that is linked. Written by: go test ./cmd/halfturn -run Notices -update
//
//go:embed notices.txt
var notices string

// Run prints the version and what it was built from.
func (v *versionCmd) Run(io base.Streams) error {
	if v.Notices {
		_, err := fmt.Fprint(io.Out, notices)
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
	_, err := fmt.Fprintf(io.Out, "halfturn %s (%s)\n", base.Version, built)
	return err
}
