package languages

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
)

// constant begins a line that names words which a template below holds: const serve = '…';
var constant = regexp.MustCompile(`(?m)^const (\w+) =`)

// read takes the strings out of a table: export const name = { key: 'words', 'other key': 'words' + 'more', };
func read(source string) (map[string]string, error) {
	named := map[string]string{}
	for _, at := range constant.FindAllStringSubmatchIndex(source, -1) {
		r := &reader{rest: source[at[1]:], from: strings.Count(source[:at[1]], "\n") + 1, all: source[at[1]:]}
		words, err := r.sum()
		if err != nil {
			return nil, err
		}
		named[source[at[2]:at[3]]] = words
	}
	_, body, ok := strings.Cut(source, "export const ")
	if !ok {
		return nil, errors.New("exports nothing")
	}
	_, body, ok = strings.Cut(body, "= {")
	if !ok {
		return nil, errors.New("the table does not begin with = {")
	}
	r := &reader{rest: body, named: named, from: strings.Count(source[:len(source)-len(body)], "\n") + 1, all: body}
	table := map[string]string{}
	for {
		r.space()
		if r.take("}") {
			return table, nil
		}
		key, err := r.key()
		if err != nil {
			return nil, err
		}
		words, err := r.sum()
		if err != nil {
			return nil, err
		}
		if !r.take(",") {
			return nil, r.wrong("a comma must follow the words")
		}
		if _, twice := table[key]; twice {
			return nil, r.wrong(fmt.Sprintf("the key %q stands twice", key))
		}
		table[key] = words
	}
}

// A reader reads the object literal.
type reader struct {
	rest  string
	named map[string]string
	from  int
	all   string
}

func (r *reader) wrong(why string) error {
	line := r.from + strings.Count(r.all[:len(r.all)-len(r.rest)], "\n")
	return fmt.Errorf("line %d: %s", line, why)
}

// space skips white space and comments to the end of the line.
func (r *reader) space() {
	for {
		r.rest = strings.TrimLeft(r.rest, " \n")
		if !strings.HasPrefix(r.rest, "//") {
			return
		}
		_, r.rest, _ = strings.Cut(r.rest, "\n")
	}
}

// take skips a mark, when it is next.
func (r *reader) take(mark string) (ok bool) {
	r.space()
	r.rest, ok = strings.CutPrefix(r.rest, mark)
	return ok
}

var name = regexp.MustCompile(`^[A-Za-z_]\w*`)

// key reads a key with its colon: a name, a string, or a sum of strings in brackets.
func (r *reader) key() (key string, err error) {
	switch found := name.FindString(r.rest); {
	case found != "":
		key, r.rest = found, r.rest[len(found):]
	case r.take("["):
		if key, err = r.sum(); err == nil && !r.take("]") {
			err = r.wrong("the key must end with ]")
		}
	default:
		key, err = r.text()
	}
	if err == nil && !r.take(":") {
		err = r.wrong("a colon must follow the key")
	}
	return key, err
}

// sum reads strings with plus signs between them.
func (r *reader) sum() (string, error) {
	var b strings.Builder
	for {
		s, err := r.text()
		if err != nil {
			return "", err
		}
		b.WriteString(s)
		if !r.take("+") {
			return b.String(), nil
		}
	}
}

// text reads a string in quotes of any kind; in a template, the constants of the file.
func (r *reader) text() (string, error) {
	r.space()
	if r.rest == "" || !strings.ContainsRune("'\"`", rune(r.rest[0])) {
		return "", r.wrong("a string must stand here")
	}
	quote := r.rest[0]
	var b strings.Builder
	for i := 1; i < len(r.rest); i++ {
		switch c := r.rest[i]; {
		case c == quote:
			r.rest = r.rest[i+1:]
			return b.String(), nil
		case c == '\\' && i+1 < len(r.rest) && strings.IndexByte(`'"\`, r.rest[i+1]) >= 0:
			i++
			b.WriteByte(r.rest[i])
		case strings.HasPrefix(r.rest[i:], `\u`) && i+6 <= len(r.rest):
			n, err := strconv.ParseUint(r.rest[i+2:i+6], 16, 16)
			if err != nil {
				return "", r.wrong("a string has an escape or a line end")
			}
			b.WriteRune(rune(n))
			i += 5
		case c == '\\' || c == '\n':
			return "", r.wrong("a string has an escape or a line end")
		case quote == '`' && strings.HasPrefix(r.rest[i:], "${"):
			of, _, _ := strings.Cut(r.rest[i+2:], "}")
			value, ok := r.named[of]
			if !ok {
				return "", r.wrong("there is no constant " + of)
			}
			b.WriteString(value)
			i += len(of) + 2
		default:
			b.WriteByte(c)
		}
	}
	return "", r.wrong("a string has no end")
}
