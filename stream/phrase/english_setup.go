package phrase

// NeedDeck is what needs the height above ground, besides checks.
var NeedDeck = table.define("need.hard-deck", "the hard deck")

// What is to be changed in the simulator, or in the program that sends, so that a channel comes.
var (
	ForChannels = table.define("setup.for", "For {channels:list}: {setting:phrase}")
	SwitchOnRow = table.define("setup.row",
		"in the simulator's settings, Data Output, tick the box of network output for row {row:words}.")
	AddProperty = table.define("setup.property", "add the line <property> {name:words} </property> to the simulator's "+
		"output file, or use simulators/jsbsim/halfturn.xml, which has it.")
	UseProtocol = table.define("setup.protocol", "start the simulator with the protocol file that Halfturn brings "+
		"(halfturn simulators copy DIR writes it out), which sends it; or add it to your own file and map.")
	AddMember = table.define("setup.member",
		"let the bridge add the member {name:name} ({unit:words}) to every line.")
	SendDataref = table.define("setup.dataref",
		"in the simulator's settings, Data Output, Dataref Read/Write, send {name:words} too.")
	AskedInVain = table.define("setup.asked",
		"Halfturn asked for {name:words} and got no value; load another aircraft, or "+
			"switch on row {row:words} of the data output instead.")
	NoPlaceInReplies = table.define("setup.replies",
		"these replies have no place for that. Start Halfturn with --subscribe "+
			"and the simulator's address: it asks for all it needs.")
	NoPlaceInModel = table.define("setup.native",
		"this stream has no place for that. Start the simulator with --generic and "+
			"the protocol file that Halfturn brings (halfturn simulators copy DIR).")
	NoPlaceInFormat = table.define("setup.format",
		"what arrives ({format:words}) has no place for that, or the program that "+
			"sends it leaves that out; use a bridge that sends JSON lines (halfturn simulators copy DIR writes "+
			"one out).")
)

// Where the rate is raised.
var (
	RateInDataOutput = table.define("setup.rate-data-output",
		"Raise the rate to 30 or 60 a second: in the simulator's "+
			"settings, Data Output, move the slider of the network rate (packets a second).")
	RateInConfiguration = table.define("setup.rate-subscribe",
		"Raise the rate to 30 or 60 a second: rate under [subscribe] "+
			"in the configuration; the simulator sends no faster than it draws pictures.")
	RateInOutputFile = table.define("setup.rate-output-file",
		"Raise the rate to 30 or 60 a second: the attribute rate of "+
			"<output> in the simulator's output file.")
	RateInOption = table.define("setup.rate-option",
		"Raise the rate to 30 or 60 a second: the number after socket,out, in "+
			"the simulator's --generic or --native-fdm option; it sends no faster than it draws pictures.")
	RateTooSlow = table.define("setup.rate-too-slow",
		"This comes too seldom for checkpoints to be judged finely, and many "+
			"such programs cannot send faster; a bridge that sends JSON lines can (halfturn simulators copy DIR "+
			"writes one out).")
	RateInSender = table.define("setup.rate-sender", "Raise the rate to 30 or 60 a second: in the program that sends.")
)

// What else there is to say of a stream.
var (
	StreamEnded = table.define("stream.ended",
		"Nothing comes any more. Is the simulator running, and is its output still switched on?")
	StreamPaused = table.define("stream.paused", "The simulator is paused. Let it run.")

	BankTurned         = table.define("stream.bank-turned", "bank is turned round")
	PitchTurned        = table.define("stream.pitch-turned", "pitch is turned round")
	BankAndPitchTurned = table.define("stream.both-turned", "bank and pitch are turned round")
)
