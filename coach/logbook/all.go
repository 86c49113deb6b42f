package logbook

import "context"

// Lister lists sessions page by page, as a [Book] does.
type Lister interface {
	List(ctx context.Context, f Filter) (*SessionList, error)
}

// page is how many sessions are asked for at once.
const page = 200

// ListAll lists the sessions that a filter selects, over all pages, up to a limit; 0 is all. The filter's own limit is
// not used.
func ListAll(ctx context.Context, b Lister, f Filter, limit int) (*SessionList, error) {
	var list *SessionList
	for {
		f.Limit = page
		if limit > 0 {
			f.Limit = min(page, limit)
			if list != nil {
				f.Limit = min(page, limit-len(list.Sessions))
			}
		}
		next, err := b.List(ctx, f)
		if err != nil {
			return nil, err
		}
		if list != nil {
			next.Sessions = append(list.Sessions, next.Sessions...)
		}
		list = next
		if f.After = list.Next; f.After == "" {
			list.Total, list.More = max(list.Total, len(list.Sessions)), false
			return list, nil
		}
		if limit > 0 && len(list.Sessions) >= limit {
			return list, nil
		}
	}
}
