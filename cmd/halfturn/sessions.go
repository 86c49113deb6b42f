package main

// sessionsCmd is what is done with sessions that were recorded.
type sessionsCmd struct {
	Export  sessionsExportCmd  `cmd:"" help:"Write a session or one leg as CSV, Parquet, GPX, KML, JSON or a printable PDF."`
	Import  sessionsImportCmd  `cmd:"" help:"Take captures, or folders of them, in as sessions."`
	Regrade sessionsRegradeCmd `cmd:"" help:"Grade a session or a recording again and list what differs."`
}
