package story

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"net/http"
	"sync"
	"time"

	"halfturn/coach/logbook"
)

// How often an instructor does something.
const (
	commandEvery = 700 * time.Millisecond
	judgeEvery   = 6 // commands
)

// An instructor speaks to stations, marks moments and overrules verdicts, at any node.
type instructor struct {
	name  string
	nodes []*node
	seats []*seat

	mu       sync.Mutex
	accepted map[string]accepted // what was said, marked or given as a reason: each is another one
	refused  int
	unsure   int // it may be done, said the node
	failed   int // no answer: it may have been done
}

// An accepted is where and when a node said that something is done.
type accepted struct {
	where string // a station, or a session
	at    time.Time
	node  string
}

// act acts until the context ends.
func (i *instructor) act(ctx context.Context) {
	i.accepted = map[string]accepted{}
	tick := time.NewTicker(commandEvery)
	defer tick.Stop()
	for k := 0; ; k++ {
		select {
		case <-ctx.Done():
			return
		case <-tick.C:
		}
		at := i.nodes[k%len(i.nodes)]
		if k%judgeEvery == judgeEvery-1 {
			i.overrule(ctx, at, k)
			continue
		}
		s := i.seats[(k*7+len(i.name))%len(i.seats)]
		if !s.flies() {
			continue
		}
		words := fmt.Sprintf("%s %d", i.name, k)
		command, body := "say", map[string]string{"say": words}
		if k%2 == 0 {
			command, body = "mark", map[string]string{"mark": words}
		}
		i.send(ctx, at, "/api/stations/"+s.name+"/"+command, body, words, s.name)
	}
}

// overrule overrules the verdict of the first leg of a session that is over.
func (i *instructor) overrule(ctx context.Context, at *node, k int) {
	list, err := listOf(ctx, at, "?flown=1&limit=50")
	if err != nil {
		return
	}
	for n := range list.Sessions {
		row := &list.Sessions[(k+n)%len(list.Sessions)]
		if row.Ended == "" || row.Legs == 0 {
			continue
		}
		reason := fmt.Sprintf("%s reason %d", i.name, k)
		i.send(ctx, at, "/api/sessions/"+row.ID+"/overrule", map[string]any{
			"leg": 1, "verdict": "met", "reason": reason, "by": i.name,
		}, reason, row.ID)
		return
	}
}

// send asks for something to be done, which words tell from all else.
func (i *instructor) send(ctx context.Context, at *node, path string, body any, words, where string) {
	text, err := json.Marshal(body)
	if err != nil {
		panic(err) // texts and numbers
	}
	ctx, cancel := context.WithTimeout(ctx, 6*time.Second)
	defer cancel()
	r, err := http.NewRequestWithContext(ctx, http.MethodPost, "http://"+at.pages+path, bytes.NewReader(text))
	if err != nil {
		panic(err)
	}
	r.Header.Set("Content-Type", "application/json")
	status, _, err := read(http.DefaultClient.Do(r))
	i.mu.Lock()
	defer i.mu.Unlock()
	switch {
	case err != nil:
		i.failed++
	case status == http.StatusOK:
		i.accepted[words] = accepted{where, time.Now(), at.name}
	case status == http.StatusGatewayTimeout:
		i.unsure++
	default:
		i.refused++
	}
}

// listOf asks a node for sessions.
func listOf(ctx context.Context, at *node, query string) (*logbook.SessionList, error) {
	ctx, cancel := context.WithTimeout(ctx, 6*time.Second)
	defer cancel()
	r, err := http.NewRequestWithContext(ctx, http.MethodGet, "http://"+at.pages+"/api/sessions"+query, nil)
	if err != nil {
		return nil, err
	}
	status, body, err := read(http.DefaultClient.Do(r))
	if err != nil {
		return nil, err
	}
	list := new(logbook.SessionList)
	if status != http.StatusOK {
		return nil, fmt.Errorf("%s answers %d: %s", at.name, status, body)
	}
	return list, json.Unmarshal(body, list)
}
