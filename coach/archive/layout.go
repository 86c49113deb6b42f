package archive

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
)

// What lies in a data directory.
const (
	sessionsDir = "sessions"    // the folders of the sessions
	gateFile    = "import.lock" // locked while imported sessions are put among the others
	ownerFile   = "lock"        // locked by the server that owns the data directory
)

// What lies in the folder of a session. Its recording is of [record.Parts], and so is the mark of a session that is not
// over.
const (
	// SummaryFile holds the grades that a session got first.
	SummaryFile = "summary.json"
	// ImportFile says where a session that was imported comes from.
	ImportFile = "import.json"

	notesFile = "notes.json" // what is known of the session beside its stream and its grades
	cardsDir  = "cards"      // the cards that grade it, as they stood
)

// sessionName is what the folder of a session may be called: no path leads out of the data directory.
var sessionName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]*$`)

// IsID reports whether a word can be the id of a session, which is the name of its folder.
func IsID(s string) bool { return len(s) <= 200 && sessionName.MatchString(s) }

// IsFolder reports whether a folder has one of the files that a session's has beside its recording.
func IsFolder(dir string) bool {
	for _, name := range []string{notesFile, SummaryFile, ImportFile} {
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
