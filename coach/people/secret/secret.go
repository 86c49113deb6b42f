// Package secret makes tokens, keys and passwords, and tells whether one that is brought is right.
//
// Tokens have 128 random bits or more, so that a plain SHA-256 of them is as good as they are; a database keeps nothing
// else. Passwords are chosen by people and hashed slowly, by argon2id (RFC 9106).
package secret

import (
	"crypto/rand"
	"crypto/sha256"
	"crypto/subtle"
	"encoding/base64"
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"golang.org/x/crypto/argon2"
	"golang.org/x/text/unicode/norm"

	"halfturn/coach/people"
)

// tokenBytes are 256 random bits: twice what a link must have.
const tokenBytes = 32

// New makes a token of 43 letters, digits, - and _, which can stand in a link, a cookie or a file.
func New() string {
	var b [tokenBytes]byte
	_, _ = rand.Read(b[:]) // documented never to fail
	return base64.RawURLEncoding.EncodeToString(b[:])
}

// Hash is what is kept of a token.
func Hash(token string) people.Hash { return sha256.Sum256([]byte(token)) }

// Parameters of argon2id: 19 MiB, two passes, one lane, the first choice of the OWASP Password Storage Cheat Sheet
// (https://cheatsheetseries.owasp.org/cheatsheets/Password_Storage_Cheat_Sheet.html, Argon2id). They stand in each
// hash, so that they can be raised later.
const (
	memory   = 19 << 10 // KiB
	passes   = 2
	lanes    = 1
	saltSize = 16 // bytes, RFC 9106, 3.1
	keySize  = 32
)

// Limits of a password, in letters. NIST SP 800-63B, 5.1.1.2: at least eight, and at least 64 must be taken.
const (
	ShortestPassword = 8
	LongestPassword  = 128
)

// Password hashes a password: $argon2id$v=19$m=19456,t=2,p=1$salt$key, as the reference implementation writes it. The
// error says what is wrong with the password.
func Password(words string) (string, error) {
	switch n := utf8.RuneCountInString(words); {
	case !utf8.ValidString(words):
		return "", errors.New("the password is not UTF-8")
	case n < ShortestPassword || n > LongestPassword:
		return "", fmt.Errorf("the password has %d letters; must be between %d and %d", n, ShortestPassword,
			LongestPassword)
	}
	var salt [saltSize]byte
	_, _ = rand.Read(salt[:]) // documented never to fail
	h := hashed{memory: memory, passes: passes, lanes: lanes, salt: salt[:]}
	h.key = h.of(words)
	return h.String(), nil
}

// A hashed password, with what it was made by.
type hashed struct {
	memory, passes uint32 // memory in KiB
	lanes          uint8
	salt, key      []byte
}

// of is the slow part. The same letters give the same bytes on every keyboard (NIST SP 800-63B, 5.1.1.2).
func (h *hashed) of(words string) []byte {
	return argon2.IDKey([]byte(norm.NFKC.String(words)), h.salt, h.passes, h.memory, h.lanes, keySize)
}

// String writes the hash as the reference implementation does.
func (h *hashed) String() string {
	text := base64.RawStdEncoding.EncodeToString
	return fmt.Sprintf("$argon2id$v=%d$m=%d,t=%d,p=%d$%s$%s", argon2.Version, h.memory, h.passes, h.lanes,
		text(h.salt), text(h.key))
}

// parse reads a hash. A row that somebody wrote into the database cannot ask for more than eight times the work.
func parse(text string) (h hashed, ok bool) {
	parts := strings.Split(text, "$")
	if len(parts) != 6 {
		return h, false
	}
	var version int
	_, err := fmt.Sscanf(strings.Join(parts[1:4], " "), "argon2id v=%d m=%d,t=%d,p=%d", &version, &h.memory, &h.passes,
		&h.lanes)
	if err != nil || version != argon2.Version || h.memory > 8*memory || h.passes < 1 || h.passes > 8*passes ||
		h.lanes < 1 || h.lanes > 8 {
		return h, false
	}
	var err1, err2 error
	h.salt, err1 = base64.RawStdEncoding.DecodeString(parts[4])
	h.key, err2 = base64.RawStdEncoding.DecodeString(parts[5])
	return h, err1 == nil && err2 == nil && len(h.key) == keySize
}

// nobody is the hash of a password that nobody has.
const nobody = "$argon2id$v=19$m=19456,t=2,p=1$bm9ib2R5IGhhcyB0aGlzIQ$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA"

// Right reports whether a password is that of a hash. It takes as long for an account that does not exist, whose hash
// is "", so that the time does not tell which ones do.
func Right(words, hash string) bool {
	known := hash != ""
	if !known {
		hash = nobody
	}
	if len(words) > 4*LongestPassword {
		words = "" // as wrong as any, and not worth the time
	}
	h, ok := parse(hash)
	if !ok {
		return false
	}
	same := subtle.ConstantTimeCompare(h.of(words), h.key) == 1
	return same && known
}

// letters are those of a password that is made here: none looks like another.
const letters = "abcdefghjkmnpqrstuvwxyz23456789"

// Made makes a password to be changed: four groups of five letters, 99 random bits.
func Made() string {
	var b strings.Builder
	for i := range 20 {
		if i > 0 && i%5 == 0 {
			b.WriteByte('-')
		}
		b.WriteByte(letters[number(len(letters))])
	}
	return b.String()
}

// number is a random number below n, each as likely.
func number(n int) int {
	var b [1]byte
	for {
		_, _ = rand.Read(b[:]) // documented never to fail
		if most := 256 - 256%n; int(b[0]) < most {
			return int(b[0]) % n
		}
	}
}
