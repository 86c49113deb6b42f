package query

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// An excerpt of a remark has at most as many words, of which some stand before the one that was found.
const (
	excerptWords  = 16
	excerptBefore = 4
)

// Plain is a text as it is searched: folded, without accents.
func Plain(text string) string {
	apart := norm.NFD.String(cases.Fold().String(text))
	return strings.Map(func(r rune) rune {
		if unicode.Is(unicode.Mn, r) {
			return -1
		}
		return r
	}, apart)
}

// excerpt is the part of a remark around the first of the words that were looked for.
func excerpt(remark string, words []string) string {
	var begins, ends []int // of its words, in bytes
	inside := false
	for i, r := range remark {
		is := isOfWord(r)
		if is && !inside {
			begins = append(begins, i)
		}
		if !is && inside {
			ends = append(ends, i)
		}
		inside = is
	}
	if inside {
		ends = append(ends, len(remark))
	}
	first := 0
	for i := range begins {
		if beginsWith(remark[begins[i]:ends[i]], words) {
			first = i
			break
		}
	}
	from := max(0, min(first-excerptBefore, len(begins)-excerptWords))
	to := min(len(begins), from+excerptWords)
	text := remark
	if to < len(begins) {
		text = text[:ends[to-1]] + "…"
	}
	if from > 0 {
		text = "…" + text[begins[from]:]
	}
	return text
}

// beginsWith reports whether a word begins with one that was looked for.
func beginsWith(word string, wanted []string) bool {
	is := Plain(word)
	for _, w := range wanted {
		if p := Plain(w); utf8.RuneCountInString(p) > 0 && strings.HasPrefix(is, p) {
			return true
		}
	}
	return false
}
