package main

import (
	"errors"
	"regexp"
	"strings"

	"github.com/alecthomas/kong"

	"halfturn/cmd/halfturn/base"
	"halfturn/stream/phrase"
)

// A mistake is a sentence of kong about a wrong call, and how it is said here.
type mistake struct {
	kong *regexp.Regexp
	says func(in *phrase.Language, found []string) string
}

// mistakes are the sentences that a wrong call meets. Of any other the English of kong is printed.
var mistakes = []mistake{
	{
		regexp.MustCompile(`^unknown flag (\S+?)(?:, did you mean (?:one of )?(.*)\?)?$`),
		func(in *phrase.Language, found []string) string {
			return similar(in, in.Wordf("there is no flag %s", found[1]), found[2])
		},
	},
	{
		regexp.MustCompile(`^unexpected argument (.*?)(?:, did you mean (?:one of )?(.*)\?)?$`),
		func(in *phrase.Language, found []string) string {
			return similar(in, in.Wordf("%q is one argument too many, or no command", found[1]), found[2])
		},
	},
	{
		regexp.MustCompile(`^expected one of (.*)$`),
		func(in *phrase.Language, found []string) string {
			return in.Wordf("a command is missing: %s", bare(found[1]))
		},
	},
	{
		regexp.MustCompile(`^expected "(<.*)"$`),
		func(in *phrase.Language, found []string) string { return in.Wordf("what is missing: %s", found[1]) },
	},
	{
		regexp.MustCompile(`^missing flags: (.*)$`),
		func(in *phrase.Language, found []string) string { return in.Wordf("what is missing: %s", found[1]) },
	},
	{
		regexp.MustCompile(`^(.*?)(?:=\S+)? must be one of (.*) but got (".*")$`),
		func(in *phrase.Language, found []string) string {
			choices := strings.FieldsFunc(bare(found[2]), func(r rune) bool { return r == ',' })
			return in.Wordf("%s is %s; must be %s", found[1], found[3], in.OneOf(choices))
		},
	},
	{
		regexp.MustCompile(`^(.*?): expected \w+ value but got "(?:EOL"|--)`),
		func(in *phrase.Language, found []string) string { return in.Wordf("%s needs a value", found[1]) },
	},
	{
		regexp.MustCompile(`^(.*?): expected (?:an|a valid \d+ bit) u?int but got ("[^"]*")`),
		func(in *phrase.Language, found []string) string {
			return in.Wordf("%s is %s; must be a whole number", found[1], found[2])
		},
	},
	{
		regexp.MustCompile(`^(.*?): expected a float but got ("[^"]*")`),
		func(in *phrase.Language, found []string) string {
			return in.Wordf("%s is %s; must be a number", found[1], found[2])
		},
	},
	{
		regexp.MustCompile(`^(.*?): expected duration but got ("[^"]*")`),
		func(in *phrase.Language, found []string) string {
			return in.Wordf("%s is %s; must be a time such as 90s, 5m or 24h", found[1], found[2])
		},
	},
	{
		regexp.MustCompile(`^(.*?): bool value must be true, .* but got ("[^"]*")$`),
		func(in *phrase.Language, found []string) string {
			return in.Wordf("%s is %s; must be %s", found[1], found[2], in.OneOf([]string{"true", "false"}))
		},
	},
}

// wrongCall is the error of a wrong call in a language, with what lists the right ones.
func wrongCall(in *phrase.Language, err error) error {
	says, command := err.Error(), "halfturn"
	var wrong *kong.ParseError
	var node *kong.Node
	if errors.As(err, &wrong) && wrong.Context != nil {
		if node = wrong.Context.Selected(); node != nil {
			command = node.FullPath()
		} else {
			node = wrong.Context.Model.Node
		}
	}
	for _, m := range mistakes {
		if found := m.kong.FindStringSubmatch(says); found != nil {
			if node != nil && strings.HasSuffix(found[1], ", ...") { // kong names the first few
				found[1] = strings.Join(commandsOf(node), ", ")
			}
			says = m.says(in, found)
			break
		}
	}
	return base.Usagef(in, "%s; %s --help lists the commands and flags", says, command)
}

// commandsOf names the commands under a command.
func commandsOf(node *kong.Node) (names []string) {
	for _, child := range node.Children {
		if child.Type == kong.CommandNode && !child.Hidden {
			names = append(names, child.Name)
		}
	}
	return names
}

// similar adds what may have been meant, as kong quotes it; "" is nothing.
func similar(in *phrase.Language, says, meant string) string {
	if meant == "" {
		return says
	}
	return says + "; " + in.Wordf("did you mean %s?", in.OneOf(strings.Split(bare(meant), ", ")))
}

// bare is a list as kong writes it, without its quotes.
func bare(list string) string { return strings.ReplaceAll(list, `"`, "") }
