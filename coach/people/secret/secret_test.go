package secret

import (
	"encoding/base64"
	"strings"
	"testing"

	"golang.org/x/crypto/argon2"
)

// A token has 256 random bits and can stand anywhere; two are never the same.
func TestNew(t *testing.T) {
	seen := map[string]bool{}
	for range 1000 {
		token := New()
		bits, err := base64.RawURLEncoding.DecodeString(token)
		if err != nil || len(bits) != 32 || seen[token] {
			t.Fatalf("%q: %d bytes, %v", token, len(bits), err)
		}
		seen[token] = true
	}
	// FIPS 180-2, B.1: SHA-256 of "abc".
	if h := Hash("abc"); h[0] != 0xba || h[1] != 0x78 || h[31] != 0xad {
		t.Errorf("the hash of abc is %x", h)
	}
}

// The library computes what the reference implementation does: its test vector for argon2id, version 0x13, t=2, m=2^16,
// p=1 (github.com/P-H-C/phc-winner-argon2, src/test.c).
func TestReference(t *testing.T) {
	const text = "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc"
	if argon2.Version != 0x13 {
		t.Errorf("the version is %x", argon2.Version)
	}
	if !Right("password", text) {
		t.Error("the password of the vector is wrong")
	}
	if Right("differentpassword", text) {
		t.Error("another password is right")
	}
}

// The parameters are the first choice of the OWASP Password Storage Cheat Sheet: m=19456 (19 MiB), t=2, p=1.
func TestPassword(t *testing.T) {
	a, err := Password("a long pass phrase")
	if err != nil || !strings.HasPrefix(a, "$argon2id$v=19$m=19456,t=2,p=1$") {
		t.Fatalf("%q, %v", a, err)
	}
	b, err := Password("a long pass phrase")
	if err != nil || a == b {
		t.Errorf("two hashes of one password are the same: %v", err)
	}
	for words, right := range map[string]bool{
		"a long pass phrase":      true,
		"A long pass phrase":      false,
		"a long pass phrase ":     false,
		"":                        false,
		strings.Repeat("x", 9999): false,
	} {
		if Right(words, a) != right {
			t.Errorf("%.30q is right: %v", words, !right)
		}
	}
	// NFKC: the letter e with an accent, as one code point and as two.
	accents, err := Password("caf\u00e9 caf\u00e9")
	if err != nil || !Right("cafe\u0301 cafe\u0301", accents) {
		t.Errorf("another keyboard writes another password: %v", err)
	}
	for _, bad := range []string{"", "1234567", strings.Repeat("x", 129), "\xff\xff\xff\xff\xff\xff\xff\xff"} {
		if h, err := Password(bad); err == nil {
			t.Errorf("%q is taken: %s", bad, h)
		}
	}
	for _, good := range []string{"12345678", strings.Repeat("座", 128)} {
		if _, err := Password(good); err != nil {
			t.Errorf("%q: %v", good, err)
		}
	}
}

// Nobody's password is right, nor is one of a hash that is none, or that asks for more work than there should be.
func TestNobody(t *testing.T) {
	if _, ok := parse(nobody); !ok {
		t.Error("the hash for accounts that do not exist cannot be computed")
	}
	for _, hash := range []string{
		"", "x", nobody, "$argon2id$v=19$m=19456,t=2,p=1$$", "$argon2i$v=19$m=19456,t=2,p=1$c29tZXNhbHQ$AAAA",
		"$argon2id$v=18$m=19456,t=2,p=1$bm9ib2R5IGhhcyB0aGlzIQ$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA",
		"$argon2id$v=19$m=99999999,t=2,p=1$bm9ib2R5IGhhcyB0aGlzIQ$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA",
		"$argon2id$v=19$m=19456,t=999,p=1$bm9ib2R5IGhhcyB0aGlzIQ$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA",
	} {
		for _, words := range []string{"", "password"} {
			if Right(words, hash) {
				t.Errorf("%q is right for %q", words, hash)
			}
		}
	}
}

func TestMade(t *testing.T) {
	seen := map[string]bool{}
	for range 200 {
		p := Made()
		if len(p) != 23 || strings.Trim(p, letters+"-") != "" || seen[p] {
			t.Fatalf("%q", p)
		}
		seen[p] = true
	}
}

// BenchmarkRight is how long a login takes.
//
//	go test -run xxx -bench Right -benchmem ./coach/people/secret
func BenchmarkRight(b *testing.B) {
	for b.Loop() {
		Right("password", "")
	}
}
