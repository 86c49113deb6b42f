package settings

import (
	"errors"
	"os"
	"path/filepath"
	"strings"

	"github.com/adrg/xdg"
)

// DataDir is where sessions are kept: as configured, else the folder halfturn in the user's data folder, which the
// system decides: XDG_DATA_HOME or ~/.local/share on Linux, Application Support on macOS, AppData on Windows.
// Earlier versions used ~/.local/share on every system; where only that folder exists, it stays in use.
func (c *Config) DataDir() (string, error) {
	if c.Data != "" {
		return c.Data, nil
	}
	old := ""
	if home, err := os.UserHomeDir(); err == nil && os.Getenv("XDG_DATA_HOME") == "" {
		old = filepath.Join(home, ".local", "share", "halfturn")
	}
	return dataDir(xdg.DataHome, old)
}

// IsConnection reports whether a path was made of the address of a database, which has lost a slash by that. A folder
// of that name would have the password in it.
func IsConnection(path string) bool {
	slashed := "/" + filepath.ToSlash(path)
	return strings.Contains(slashed, "/postgres:/") || strings.Contains(slashed, "/postgresql:/")
}

// OwnCards is the folder of cards that the program itself writes for the user: those of measured aircraft. Cards in it
// are read where it is there. It is "" where there is no data folder.
func (c *Config) OwnCards() string {
	dir, err := c.DataDir()
	if err != nil {
		return ""
	}
	return filepath.Join(dir, "cards")
}

// dataDir chooses between the folder of today, in the data folder home, and the one of earlier versions.
func dataDir(home, old string) (string, error) {
	if !filepath.IsAbs(home) {
		return "", errors.New("there is no data folder for this user; name one with --data")
	}
	dir := filepath.Join(home, "halfturn")
	if old != "" && !isDir(dir) && isDir(old) {
		return old, nil
	}
	return dir, nil
}

func isDir(name string) bool {
	info, err := os.Stat(name)
	return err == nil && info.IsDir()
}
