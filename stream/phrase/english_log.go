package phrase

// Why a text log cannot be read.
var (
	LogLine   = table.define("log.line", "line {line:number}: {why:phrase}")
	LogColumn = table.define("log.column", "line {line:number}, column {column:number} ({name:name}): {why:phrase}")
	LogUTF16  = table.define("log.two-bytes",
		"the text has two bytes for each letter (UTF-16); save it as UTF-8")
	LogUnknown = table.define("log.unknown",
		"this is no text log: rows of at least three columns with numbers, below a line of their names")
	LogNoRows  = table.define("log.no-rows", "the columns are named here, and no row of numbers follows")
	LogNoNames = table.define("log.no-names", "the columns have no names and are in the order of no known map; put a "+
		"line of names before them, or give a map with --map FILE")
	LogMissing = table.define("log.missing", "no column is known to hold {channels:list}; halfturn grade --map "+
		"propose FILE prints a map for these columns, to correct, save and give with --map")
	LogNoTime = table.define("log.no-time",
		"no column holds the time; name it in a map, or give the rows a second with --rate N")
	LogBadTime = table.define("log.bad-time", "{value:name} is no time; must be seconds, hours:minutes:seconds, or a "+
		"date and time such as 2031-05-04T10:15:30")
)
