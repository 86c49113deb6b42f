package queue

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"

	"halfturn/coach/archive/disk"
	"halfturn/coach/archive/folder"
	"halfturn/coach/logbook"
	"halfturn/coach/who"
	"halfturn/stream/record"
)

// waitingDir is where it lies in the data directory what could not be entered, such as while the database of the
// logbook does not answer: a program that is started again meanwhile goes on with it. The report of a session is in its
// folder.
const waitingDir = "waiting"

// A waitingFile is what waits of a session.
type waitingFile struct {
	Begin   *logbook.Entry `json:"begin,omitempty"` // without its cards, which are in the folder
	Student *waitingName   `json:"student,omitempty"`
	Remarks []waitingWords `json:"remarks,omitempty"`
	Ended   time.Time      `json:"ended,omitzero"`
	Fence   uint64         `json:"fence,omitempty"` // under which it may be entered
}

type waitingName struct {
	By   who.Who `json:"by"`
	Name string  `json:"name"`
}

type waitingWords struct {
	By     who.Who        `json:"by"`
	Remark logbook.Remark `json:"remark"`
}

func (w *Writer) waitingFile(id string) string {
	return filepath.Join(w.archive.Data(), waitingDir, id+".json")
}

// saveWaiting writes to the disk what waits, as far as that is not done. What cannot be written waits in memory alone:
// a disk that fails is told by whoever records.
func (w *Writer) saveWaiting() {
	w.mu.Lock()
	texts, cards := map[string][]byte{}, map[string][]logbook.KeptCard{}
	for id, p := range w.work {
		if !p.unsaved {
			continue
		}
		p.unsaved, p.onDisk = false, true
		if p.begin != nil {
			cards[id] = p.begin.Cards
		}
		if text, err := json.Marshal(p.toFile()); err == nil {
			texts[id] = text
		}
	}
	w.mu.Unlock()
	for id, text := range texts {
		name := w.waitingFile(id)
		err := os.MkdirAll(filepath.Dir(name), 0o750)
		if err == nil {
			err = disk.WriteWhole(name, text)
		}
		if err != nil || len(cards[id]) == 0 {
			continue
		}
		// Only in its folder: where that is away for a moment, another one must not take its place.
		dir := filepath.Join(w.archive.Dir(), id)
		if _, err := os.Stat(dir); err == nil {
			_ = folder.KeepCards(dir, cards[id])
		}
	}
}

// toFile is what is written of it. The lock of the writer is held.
func (p *pending) toFile() *waitingFile {
	f := &waitingFile{Ended: p.ended, Fence: p.fence}
	if p.begin != nil {
		begin := *p.begin
		begin.Cards = nil
		f.Begin = &begin
	}
	if p.student != nil {
		f.Student = &waitingName{p.student.by, p.student.name}
	}
	for _, r := range p.remarks {
		f.Remarks = append(f.Remarks, waitingWords{r.by, r.remark})
	}
	return f
}

// entered removes what was written to the disk of a session that is entered, or never will be.
func (w *Writer) entered(id string, p *pending) {
	if p.onDisk {
		_ = os.Remove(w.waitingFile(id)) // what stays is entered once more, which changes nothing
	}
}

// loadWaiting puts what waited when the last program ended. Its reports are made again from the folders. A session
// whose folder is gone was removed, unless a depot has it.
func (w *Writer) loadWaiting() {
	all, _ := filepath.Glob(filepath.Join(folder.Globbed(w.archive.Data()), waitingDir, "*.json"))
	for _, name := range all {
		id := strings.TrimSuffix(filepath.Base(name), ".json")
		text, err := os.ReadFile(name)
		var f waitingFile
		if err == nil {
			err = json.Unmarshal(text, &f)
		}
		dir := filepath.Join(w.archive.Dir(), id)
		_, gone := os.Stat(dir)
		switch {
		case err != nil:
			w.warn(fmt.Errorf("%s cannot be read, and what waits of the session is entered from its folder by "+
				"halfturn sessions rebuild: %w", name, err))
			continue
		case gone != nil && w.archive.Depot() == nil:
			_ = os.Remove(name) // else it is looked at again at the next start
			continue
		}
		w.work[id] = f.pending(dir)
		w.order = append(w.order, id)
	}
}

// pending is what waits by a file, of the session in a folder. One that was not over is resumed from its recording, and
// its report with it.
func (f *waitingFile) pending(dir string) *pending {
	p := &pending{begin: f.Begin, ended: f.Ended, fence: f.Fence, again: !record.Unfinished(dir), onDisk: true}
	if p.begin != nil {
		p.begin.Cards, _ = folder.ReadCards(dir) // those that cannot be read are not needed to enter it
	}
	if f.Student != nil {
		p.student = &named{f.Student.By, f.Student.Name}
	}
	for _, r := range f.Remarks {
		p.remarks = append(p.remarks, remarked{r.By, r.Remark})
	}
	return p
}
