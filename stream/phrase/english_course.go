package phrase

// Courses.
var (
	NoCourse     = table.define("course.name", "there is no course {name:name}; there are: {names:words}")
	NoCourseStep = table.define("course.step",
		"the course {course:name} has no step {step:name}; it has: {names:words}")
	CourseNoWeakness = table.define("course.no-weakness",
		"no check of a leg of {maneuver:name} shows {cause:name}; halfturn causes lists the causes")
)
