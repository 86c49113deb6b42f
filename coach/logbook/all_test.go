package logbook

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"testing"
)

// A school has sessions named by number, and counts how they are asked for.
type school struct {
	sessions int
	limits   []int
	fails    int // at which page, from 1
}

var errPage = errors.New("the page cannot be read")

func (s *school) List(_ context.Context, f Filter) (*SessionList, error) {
	s.limits = append(s.limits, f.Limit)
	if len(s.limits) == s.fails {
		return nil, errPage
	}
	from := 0
	if f.After != "" {
		if _, err := fmt.Sscan(f.After, &from); err != nil {
			return nil, err
		}
	}
	list := &SessionList{Total: s.sessions}
	for n := from; n < min(from+f.Limit, s.sessions); n++ {
		var row SessionRow
		row.ID = fmt.Sprint(n)
		list.Sessions = append(list.Sessions, row)
	}
	if end := from + len(list.Sessions); end < s.sessions {
		list.Next = fmt.Sprint(end)
	}
	return list, nil
}

func TestListAll(t *testing.T) {
	for _, c := range []struct {
		sessions, limit, listed int
		asked                   []int
	}{
		{sessions: 0, limit: 0, listed: 0, asked: []int{200}},
		{sessions: 7, limit: 0, listed: 7, asked: []int{200}},
		{sessions: 200, limit: 0, listed: 200, asked: []int{200}},
		{sessions: 450, limit: 0, listed: 450, asked: []int{200, 200, 200}},
		{sessions: 450, limit: 50, listed: 50, asked: []int{50}},
		{sessions: 450, limit: 200, listed: 200, asked: []int{200}},
		{sessions: 450, limit: 250, listed: 250, asked: []int{200, 50}},
		{sessions: 30, limit: 50, listed: 30, asked: []int{50}},
	} {
		s := &school{sessions: c.sessions}
		list, err := ListAll(t.Context(), s, Filter{Limit: 3}, c.limit)
		if err != nil {
			t.Fatal(err)
		}
		if len(list.Sessions) != c.listed || list.Total != c.sessions || !slices.Equal(s.limits, c.asked) {
			t.Errorf("%+v: %d of %d sessions by pages of %v", c, len(list.Sessions), list.Total, s.limits)
		}
		for i, row := range list.Sessions {
			if row.ID != fmt.Sprint(i) {
				t.Fatalf("%+v: session %d is %s", c, i, row.ID)
			}
		}
	}
	if list, err := ListAll(t.Context(), &school{sessions: 450, fails: 2}, Filter{}, 0); !errors.Is(err, errPage) ||
		list != nil {
		t.Errorf("a page that fails: %v, %v", list, err)
	}
}
