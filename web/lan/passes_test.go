package lan

import (
	"regexp"
	"testing"

	"halfturn/coach/who"
)

// has reports whether a pass is good, and is that of a student.
func has(p *passes, pass string) bool {
	role, ok := p.role(pass)
	return ok && role == who.RoleStudent
}

// A code has six digits, and only it lets a device in.
func TestCode(t *testing.T) {
	var p passes
	if _, a := p.try(""); a == letIn {
		t.Error("a network that is closed lets in whoever types nothing")
	}
	code := p.renew(who.RoleStudent)
	if !regexp.MustCompile(`^[0-9]{6}$`).MatchString(code) {
		t.Errorf("the code is %q; must be six digits", code)
	}
	for _, wrong := range []string{"", code + "0", code[1:], "x" + code[1:]} {
		if _, a := p.try(wrong); a != wrongCode {
			t.Errorf("%q for %q: %v; must be wrong", wrong, code, a)
		}
	}
	pass, a := p.try(code)
	if a != letIn || !has(&p, pass) || has(&p, "") || has(&p, pass[1:]) {
		t.Errorf("the code gives %q, %v", pass, a)
	}
	if again, _ := p.try(code); again == pass {
		t.Error("two devices have the same pass")
	}
	p.renew(who.RoleStudent)
	if has(&p, pass) {
		t.Error("a pass outlives its code")
	}
	p.end()
	if _, a := p.try(code); a != tooOften {
		t.Errorf("the code of a closed network: %v", a)
	}
}

// Trying finds no code: after the last wrong one that is allowed, the right one is refused, too.
func TestWrongCodes(t *testing.T) {
	var p passes
	code := p.renew(who.RoleStudent)
	for i := range MostWrong {
		if _, a := p.try("no"); a != wrongCode {
			t.Fatalf("wrong code %d: %v", i, a)
		}
	}
	if pass, a := p.try(code); a != letIn || !has(&p, pass) {
		t.Errorf("the code after %d wrong ones: %v; must let in", MostWrong, a)
	}
	if _, a := p.try("no"); a != tooOften {
		t.Errorf("one more wrong code: %v; must be too many", a)
	}
	if _, a := p.try(code); a != tooOften {
		t.Errorf("the code after that: %v; must be refused", a)
	}
}

// The number of devices is bounded.
func TestManyDevices(t *testing.T) {
	var p passes
	code := p.renew(who.RoleStudent)
	for range MostPasses {
		if _, a := p.try(code); a != letIn {
			t.Fatal(a)
		}
	}
	if _, a := p.try(code); a != fullHouse {
		t.Errorf("device %d: %v", MostPasses+1, a)
	}
}
