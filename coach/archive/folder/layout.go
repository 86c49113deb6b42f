package folder

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"time"

	"halfturn/stream/record"
)

// What lies in a data directory.
const (
	sessionsDir = "sessions" // the folders of the sessions
)

// What lies in the folder of a session. Its recording is of [record.Parts], and so is the mark of a session that is not
// over.
const (
	// SummaryFile holds the grades that a session got first.
	SummaryFile = "summary.json"
	// ImportFile says where a session that was imported comes from.
	ImportFile = "import.json"

	NotesFile = "notes.json" // what is known of the session beside its stream and its grades
	cardsDir  = "cards"      // the cards that grade it, as they stood
)

// sessionName matches names of session folders; no such name leads out of the data directory.
var sessionName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]*$`)

// IsID reports whether a word can be the id of a session, which is the name of its folder.
func IsID(s string) bool { return len(s) <= 200 && sessionName.MatchString(s) }

// IsSession reports whether a folder has one of the files that a session's has beside its recording.
func IsSession(dir string) bool {
	for _, name := range []string{NotesFile, SummaryFile, ImportFile} {
		if _, err := os.Stat(filepath.Join(dir, name)); err == nil {
			return true
		}
	}
	return false
}

// Sessions is where the sessions of a data directory lie.
func Sessions(data string) string { return filepath.Join(data, sessionsDir) }

// Cards is where the cards lie that grade a session, as they stood; "" when there are none.
func Cards(dir string) string {
	cards := filepath.Join(dir, cardsDir)
	if info, err := os.Stat(cards); err != nil || !info.IsDir() {
		return ""
	}
	return cards
}

// IDs lists the sessions in a folder of sessions, oldest first: their names begin with the time.
func IDs(sessions string) ([]string, error) {
	entries, err := os.ReadDir(sessions)
	if err != nil {
		return nil, fmt.Errorf("the session folders cannot be read: %w", err)
	}
	var ids []string
	for _, e := range entries {
		if e.IsDir() && IsID(e.Name()) {
			ids = append(ids, e.Name())
		}
	}
	return ids, nil
}

// LastID returns the newest session of a data directory by its folders.
func LastID(data string) (string, error) {
	ids, err := IDs(Sessions(data))
	if err != nil || len(ids) == 0 {
		return "", errors.Join(err,
			fmt.Errorf("there is no session in %q yet; choose another data directory with --data", data))
	}
	return ids[len(ids)-1], nil
}

// Name is what the folder of a session that began at a time is called: the time (UTC) and the station. Where there is
// one of that name, a number follows.
func Name(began time.Time, station string) string {
	return began.UTC().Format(idTime) + "_" + plain(station)
}

// idTime is how the id of a session begins.
const idTime = "2006-01-02T15-04-05Z"

// plain keeps the characters that every file system accepts in a name.
func plain(s string) string {
	out := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '.' || r == '-' {
			return r
		}
		return '-'
	}, s)
	out = strings.Trim(out, "-.")
	return strings.TrimRight(out[:min(len(out), 60)], "-.") // some file systems drop a dot at the end
}

// Recording lists the files of the recording in a session's folder, in order; none when only grades were kept.
func Recording(dir string) []string {
	files, err := record.Parts(dir)
	if err != nil {
		return nil
	}
	return files
}
