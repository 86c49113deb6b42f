// Package configs holds the files shipped inside the program.
package configs

import "embed"

// FS holds maneuvers/, standards/, aircraft/ (cards) and courses/, maps/ (column maps), simulators/ (set-up files a
// user copies into the simulator) and halfturn.toml (the configuration with every key), by
// those paths.
//
//go:embed maneuvers standards aircraft courses all:maps all:simulators halfturn.toml
var FS embed.FS
