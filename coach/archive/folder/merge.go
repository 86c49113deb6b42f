package folder

import (
	"bytes"
	"encoding/json"
	"slices"

	"halfturn/coach/canonical"
)

// Merge returns what puts a file of a session together that two nodes changed, or nil for a file of which one side's
// is taken: ours is that of the node which flew the session.
func Merge(name string) func(ours, theirs []byte) ([]byte, error) {
	switch name {
	case ActsFile:
		return mergeActs
	case NotesFile:
		return mergeNotes
	}
	return nil
}

// mergeActs keeps the acts of both sides: first those of theirs, then what is ours alone. A line without its end is no
// act.
func mergeActs(ours, theirs []byte) ([]byte, error) {
	var out bytes.Buffer
	seen := map[string]bool{}
	for _, side := range [][]byte{theirs, ours} {
		for line := range bytes.Lines(side) {
			if !bytes.HasSuffix(line, []byte("\n")) {
				break
			}
			var act struct {
				ID string `json:"id"`
			}
			id := string(line)
			if json.Unmarshal(line, &act) == nil && act.ID != "" {
				id = act.ID
			}
			if !seen[id] {
				seen[id] = true
				out.Write(line)
			}
		}
	}
	return out.Bytes(), nil
}

// mergeNotes keeps ours, with the gradings that theirs know beside.
func mergeNotes(ours, theirs []byte) ([]byte, error) {
	mine, err := canonical.Read(ours)
	if err != nil {
		return nil, err
	}
	other, err := canonical.Read(theirs)
	if err != nil {
		return ours, nil // nothing can be taken from them
	}
	to, ok := mine.(map[string]any)
	from, is := other.(map[string]any)
	if !ok || !is {
		return ours, nil
	}
	known, _ := to["regrades"].([]any)
	more, _ := from["regrades"].([]any)
	for _, grading := range more {
		text, err := json.Marshal(grading)
		if err != nil {
			return nil, err
		}
		same := func(k any) bool {
			is, err := json.Marshal(k)
			return err == nil && bytes.Equal(is, text)
		}
		if !slices.ContainsFunc(known, same) {
			known = append(known, grading)
		}
	}
	to["regrades"] = known
	if _, over := to["ended"]; !over && from["ended"] != nil {
		to["ended"] = from["ended"]
	}
	out, err := json.MarshalIndent(to, "", "  ")
	return append(out, '\n'), err
}
