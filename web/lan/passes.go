package lan

import (
	"crypto/rand"
	"crypto/subtle"
	"encoding/hex"
	"fmt"
	"math/big"
	"sync"

	"halfturn/coach/who"
)

// Bounds of what devices can make this package do.
const (
	MostPasses = 64 // devices at once
	MostWrong  = 50 // codes; with the next one the network closes
)

// digits is the length of a code. With [MostWrong] tries one of 20,000 attackers finds it.
const digits = 6

// passes are those of the devices that typed the code. The zero value lets nobody in.
type passes struct {
	mu    sync.Mutex
	code  string
	given map[string]bool
	wrong int
	as    who.Role // of those who have a pass
}

// renew makes a new code and takes all passes back.
func (p *passes) renew(role who.Role) (code string) {
	n, err := rand.Int(rand.Reader, big.NewInt(1_000_000))
	if err != nil {
		panic(err) // documented never to happen
	}
	p.mu.Lock()
	defer p.mu.Unlock()
	p.code, p.given, p.wrong, p.as = fmt.Sprintf("%0*d", digits, n), map[string]bool{}, 0, role
	return p.code
}

// end takes all passes back and lets nobody in.
func (p *passes) end() {
	p.mu.Lock()
	defer p.mu.Unlock()
	p.code, p.given = "", nil
}

// An answer says what becomes of a code that was typed.
type answer int

const (
	wrongCode answer = iota
	fullHouse        // as many devices as may be are there
	tooOften         // the code was wrong too often
	letIn
)

// try exchanges the code for a pass.
func (p *passes) try(code string) (pass string, a answer) {
	p.mu.Lock()
	defer p.mu.Unlock()
	switch {
	case p.code == "" || p.wrong > MostWrong:
		return "", tooOften
	case subtle.ConstantTimeCompare([]byte(code), []byte(p.code)) == 0:
		if p.wrong++; p.wrong > MostWrong {
			return "", tooOften
		}
		return "", wrongCode
	case len(p.given) >= MostPasses:
		return "", fullHouse
	}
	var b [16]byte
	_, _ = rand.Read(b[:]) // documented never to fail
	pass = hex.EncodeToString(b[:])
	p.given[pass] = true
	return pass, letIn
}

// role returns the role of a pass, false for one that is not good.
func (p *passes) role(pass string) (who.Role, bool) {
	p.mu.Lock()
	defer p.mu.Unlock()
	return p.as, p.given[pass]
}
