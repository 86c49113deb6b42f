package main

import (
	"regexp"
	"strings"
	"testing"
)

// TestWrongCalls: a wrong call is explained in the language, with what lists the right ones.
func TestWrongCalls(t *testing.T) {
	kong := regexp.MustCompile(`expected|but got|unknown|unexpected|<EOL>`) // words of kong's own sentences
	for args, says := range map[string][3]string{
		"grade": {
			"what is missing: <file> ...; halfturn grade --help lists the commands and flags",
			"was fehlt: <file> ...; halfturn grade --help zeigt die Befehle und Optionen",
			"falta: <file> ...; halfturn grade --help muestra las órdenes y las opciones",
		},
		"sessions show": {"what is missing: <session>;", "was fehlt: <session>;", "falta: <session>;"},
		"sessions": {
			"a command is missing: list, show, remark, student, keep, prune, export, import, regrade, rebuild, " +
				"backup; halfturn sessions --help",
			"ein Befehl fehlt: list, show,",
			"falta una orden: list, show,",
		},
		"sesions": {
			`"sesions" is one argument too many, or no command; did you mean sessions?; halfturn --help`,
			`"sesions" ist ein Argument zu viel, oder kein Befehl; gemeint ist vielleicht sessions; halfturn --help`,
			`"sesions" es un argumento de más, o no es una orden; ¿querías decir sessions?; halfturn --help`,
		},
		"sessions list extra": {`"extra" is one`, `"extra" ist ein`, `"extra" es un`},
		"sessions list --foo": {
			"there is no flag --foo; did you mean --from or --to?; halfturn sessions list --help",
			"es gibt keine Option --foo; gemeint ist vielleicht --from oder --to; halfturn",
			"no hay ninguna opción --foo; ¿querías decir --from o --to?; halfturn",
		},
		"--data x": {"there is no flag --data", "es gibt keine Option --data", "no hay ninguna opción --data"},
		"sessions list --limit x": {
			`--limit is "x"; must be a whole number`,
			`--limit ist "x"; muss eine ganze Zahl sein`,
			`--limit es "x"; debe ser un número entero`,
		},
		"sessions list --limit": {
			"--limit needs a value;",
			"--limit braucht einen Wert;",
			"--limit necesita un valor;",
		},
		"brief --standard --map": {
			"--standard needs a value;",
			"--standard braucht einen Wert;",
			"--standard necesita un valor;",
		},
		"sessions list --format xml": {
			`--format is "xml"; must be text or json;`,
			`--format ist "xml"; muss text oder json sein`,
			`--format es "xml"; debe ser text o json;`,
		},
		"sessions list --grade bad": {
			`--grade is "bad"; must be unable, fair, good or excellent;`,
			`--grade ist "bad"; muss unable, fair, good oder excellent sein;`,
			`--grade es "bad"; debe ser unable, fair, good o excellent;`,
		},
		"fly --rate abc": {
			`--rate is "abc"; must be a number;`,
			`--rate ist "abc"; muss eine Zahl sein;`,
			`--rate es "abc"; debe ser un número;`,
		},
		"fly --rate 5000": {
			"--rate is 5000; must be between 1 and 1000",
			"--rate ist 5000; muss zwischen 1 und 1000 liegen",
			"--rate es 5000; debe estar entre 1 y 1000",
		},
		"fly --seed -1": {"--seed", "--seed", "--seed"},
		"fly --direction up": {
			`--direction is "up"; must be both, right or left`,
			`--direction ist "up"; muss both, right oder left sein`,
			`--direction es "up"; debe ser both, right o left`,
		},
		"fly --wind 400/3": {
			"--wind: the direction is 400; must be between 0 and 360",
			"--wind: die Richtung ist 400; muss zwischen 0 und 360 liegen",
			"--wind: la dirección es 400; debe estar entre 0 y 360",
		},
		"probe --for soon": {
			`--for is "soon"; must be a time such as 90s`,
			`--for ist "soon"; muss eine Zeit sein`,
			`--for es "soon"; debe ser un tiempo`,
		},
		"serve --open=x": {
			`--open is "x"; must be true or false;`,
			`--open ist "x"; muss true`,
			`--open es "x"; debe`,
		},
		"cards new mine.toml": {
			"what is missing: --from=NAME;",
			"was fehlt: --from=NAME;",
			"falta: --from=NAME;",
		},
		"sessions prune": {"say by what: --age 90d, --size 20GB, or both", "sagen, wonach", "di según qué"},
		"sessions prune --age 90": {
			`--age is "90"; must be a number with h`,
			`--age ist "90"; muss`,
			`--age es "90"; debe`,
		},
		"users add --role student Ada": {
			"a student needs a station",
			"ein Schüler braucht",
			"un alumno necesita",
		},
		"users reset Nobody": {
			`there is no user "Nobody"; halfturn users list`,
			`es gibt keinen Benutzer "Nobody"`,
			`no hay ningún usuario "Nobody"`,
		},
		"simulators show none": {
			`there is no guide "none"`,
			`es gibt keine Anleitung "none"`,
			`no hay ninguna guía "none"`,
		},
	} {
		for i, language := range []string{"en", "de", "es"} {
			env := map[string]string{"HALFTURN_LANGUAGE": language, "HALFTURN_DATA": t.TempDir()}
			status, _, errs := call(t, env, strings.Fields(args)...)
			said := strings.ReplaceAll(errs, "\n", " ")
			if status == exitDone || !strings.Contains(said, says[i]) || kong.MatchString(said) && says[i] != "--seed" {
				t.Errorf("%s in %s: status %d, %q; must say %q", args, language, status, said, says[i])
			}
		}
	}
	if _, _, errs := call(t, nil, "grade", "--language=de"); !strings.Contains(errs, "was fehlt") {
		t.Errorf("the flag of a call that is not understood is not heeded: %s", errs)
	}
}
