package phrase

// Place is a place of a sentence, for the tests.
type Place = place

// Places returns those of a sentence.
func (d *Definition) Places() []Place { return d.places }

// Name and Kind of a place.
func (p Place) NameAndKind() (string, string) { return p.name, p.kind }
