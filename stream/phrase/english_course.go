package phrase

// Courses.
var (
	NoCourse     = table.define("course.name", "there is no course {name:name}; there are: {names:words}")
	NoCourseStep = table.define("course.step",
		"the course {course:name} has no step {step:name}; it has: {names:words}")
	CourseNoWeakness = table.define("course.no-weakness",
		"no check of a leg of {maneuver:name} shows {cause:name}; halfturn causes lists the causes")
	DrillAuto = table.define("drill.auto",
		"one maneuver must be chosen for a drill, not the one that is found from the flight")
	CourseTask = table.define("course.task",
		"the step cannot be set up: {what:name} is missing or wrong; open the course again")
	CourseVerdict = table.define("course.verdict",
		"verdict is {verdict:name}; must be passed, not-yet or empty")
	CourseNoReason = table.define("course.no-reason", "the reason is missing; say why the step is passed, or not yet")
	CourseNotFlown = table.define("course.not-flown",
		"{student:name} has not flown yet; a step is ruled on after something was flown")
	CourseNotRuled = table.define("course.not-ruled", "nobody has ruled on the step {step:name}")
	CourseNothing  = table.define("course.nothing-found",
		"nothing was found in the latest legs that a course can be built from; fly some, or choose another course")
)

// Why something is to be flown next.
var (
	CourseWhyChosen  = table.define("course.why-chosen", "chosen by hand")
	CourseWhyLocked  = table.define("course.why-locked", "chosen by hand; it counts only once it is open")
	CourseWhyCheck   = table.define("course.why-check", "ready for the check: one try to each side, first thing today")
	CourseWhySlipped = table.define("course.why-slipped", "passed before, and missed again since")
	CourseWhyNew     = table.define("course.why-new", "new: several in a row first")
	CourseWhyMixed   = table.define("course.why-mixed", "not passed yet; mixed with what was, it is kept better")
	CourseWhyWarmUp  = table.define("course.why-warm-up", "to warm up: the last flight was {days:number} days ago")
	CourseWhyDue     = table.define("course.why-due", "to keep it: last flown {days:number} days ago")
	CourseWhyAgain   = table.define("course.why-again", "to mix it with what is not passed yet")
)
