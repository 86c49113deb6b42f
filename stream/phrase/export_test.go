package phrase

// Place is a place of a sentence, for the tests.
type Place = place

// Places returns those of a sentence.
func (d *Definition) Places() []Place { return d.places }

// NameAndKind are the name of a place and the kind of its argument.
func (p Place) NameAndKind() (string, string) { return p.name, p.argument() }

// Template is the English of the pages.
func (d *Definition) Template() string { return d.template() }
