package main

// sessionsCmd is what is done with sessions that were flown.
type sessionsCmd struct {
	List    sessionsListCmd    `cmd:"" help:"List sessions, newest first, or those of a student, a maneuver, a date."`
	Show    sessionsShowCmd    `cmd:"" help:"Show one session: its legs, checks, causes and remarks."`
	Remark  sessionsRemarkCmd  `cmd:"" help:"Write a remark on a session, a leg, or a moment."`
	Student sessionsStudentCmd `cmd:"" help:"Say who flew a session."`
	Keep    sessionsKeepCmd    `cmd:"" help:"Mark a session never to be removed, or take the mark away."`
	Prune   sessionsPruneCmd   `cmd:"" help:"Remove old sessions by age or total size."`
	Export  sessionsExportCmd  `cmd:"" help:"${help_sessions_export}"`
	Import  sessionsImportCmd  `cmd:"" help:"Take captures, or folders of them, in as sessions."`
	Regrade sessionsRegradeCmd `cmd:"" help:"Grade a session or a recording again and list what differs."`
	Rebuild sessionsRebuildCmd `cmd:"" help:"Rebuild the logbook from the session folders."`
	Backup  sessionsBackupCmd  `cmd:"" help:"Copy the logbook to a file, also while sessions are flown."`
}
