package main

import (
	"halfturn/coach/message"
	"halfturn/web/internal/feed"
)

// recover is a frame after a leg that has no verdict yet.
func (p *player) recover() {
	p.now++
	p.hub.Frame(p.name, feed.Recovering(p.now, p.legs+1))
}

// series grades the series.
func (p *player) series() {
	p.event(message.Series{Series: feed.Series()})
	p.legs = 0
}
