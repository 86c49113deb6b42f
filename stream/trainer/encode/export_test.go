package encode

// Written are the formats, for tests.
var Written = formats
