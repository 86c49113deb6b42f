// Package configs holds the files shipped inside the program.
package configs

import "embed"

// FS holds maps/ (column maps) and simulators/ (set-up files a user copies into the
// simulator), by those paths.
//
//go:embed all:maps all:simulators
var FS embed.FS
