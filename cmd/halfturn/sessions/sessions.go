// Package sessions holds the commands for sessions that were flown: one file per command.
package sessions

// Command is what is done with sessions that were flown.
type Command struct {
	List     listCmd     `cmd:"" help:"List sessions, newest first, or those of a student, a maneuver, a date."`
	Show     showCmd     `cmd:"" help:"Show one session: its legs, checks, causes and remarks."`
	Remark   remarkCmd   `cmd:"" help:"Write a remark on a session, a leg, or a moment."`
	Rate     rateCmd     `cmd:"" help:"Keep how the student found a leg."`
	Overrule overruleCmd `cmd:"" help:"Put a verdict in the place of a computed one."`
	Sign     signCmd     `cmd:"" help:"Sign the grades of a session."`
	Student  studentCmd  `cmd:"" help:"Say who flew a session."`
	Keep     keepCmd     `cmd:"" help:"Mark a session never to be removed, or take the mark away."`
	Prune    pruneCmd    `cmd:"" help:"Remove old sessions by age or total size."`
	Export   exportCmd   `cmd:"" help:"${help_sessions_export}"`
	Import   importCmd   `cmd:"" help:"Take captures, or folders of them, in as sessions."`
	Regrade  regradeCmd  `cmd:"" help:"Grade a session or a recording again and list what differs."`
	Rebuild  rebuildCmd  `cmd:"" help:"Rebuild the logbook from the session folders."`
	Backup   backupCmd   `cmd:"" help:"Copy the logbook to a file, also while sessions are flown."`
}
