package doctor

import (
	"strconv"
	"strings"
	"time"

	"halfturn/stream/phrase"
)

// examinations are all, in the order in which they are told. One that finds no state had nothing to examine.
var examinations = []struct {
	name string
	of   func(*Machine, *phrase.Language) Finding
}{
	{"Configuration", configuration},
	{"Cards", cards},
	{"UDP port", udpPort},
	{"Datagrams", datagrams},
	{"Receive buffer", receiveBuffer},
	{"Address of the pages", pages},
	{"Data directory", dataDirectory},
	{"Free disk", freeDisk},
	{"Clock", clock},
	{"Open files", openFiles},
	{"Stations", stations},
	{"Voice of the browser", voice},
	{"Speech program", speech},
}

func configuration(m *Machine, in *phrase.Language) Finding {
	if m.ConfigError != nil {
		return Finding{State: Trouble, What: in.Error(m.ConfigError),
			Do: in.Word("Correct that, or leave the key out: it then has its default. The rest is examined with the " +
				"defaults.")}
	}
	return Finding{State: OK, What: in.Word("The configuration can be read.")}
}

func cards(m *Machine, in *phrase.Language) Finding {
	if m.CardsError != nil {
		return Finding{State: Trouble, What: in.Error(m.CardsError),
			Do: in.Word("Correct that card or map, or take it out of the configuration.")}
	}
	return Finding{State: OK, What: in.Word("All cards and column maps can be read.")}
}

func udpPort(m *Machine, in *phrase.Language) Finding {
	where := strings.Join(m.UDP, ", ")
	stop := in.Word("Stop that program, or choose another port with --udp, here and in the simulator.")
	switch {
	case m.UDPError == nil:
		return Finding{State: OK, What: in.Wordf("%s is free.", where)}
	case !m.UDPBusy:
		return Finding{State: Trouble, What: in.Error(m.UDPError), Do: in.Word("Choose another address with --udp.")}
	case m.Running:
		return Finding{State: OK, What: in.Wordf("Halfturn is running, and receives at %s.", where)}
	case m.UDPOwner != "":
		return Finding{State: Trouble, What: in.Wordf("%s is taken by %s.", where, m.UDPOwner), Do: stop}
	}
	return Finding{State: Trouble, What: in.Wordf("%s is taken by another program.", where), Do: stop}
}

func datagrams(m *Machine, in *phrase.Language) Finding {
	var arrived, lost []string
	for _, a := range m.Sent {
		if a.Arrived {
			arrived = append(arrived, a.At)
		} else {
			lost = append(lost, a.At)
		}
	}
	switch {
	case m.UDPError != nil && m.Running:
		return Finding{State: OK, What: in.Word("Halfturn is running: its page Set-up shows what arrives.")}
	case len(m.Sent) == 0:
		return Finding{State: Note, What: in.Word("Not tried, because the port cannot be had.")}
	case len(lost) > 0:
		return Finding{
			State: Trouble,
			What:  in.Wordf("What this machine sends to itself does not arrive at %s.", strings.Join(lost, ", ")),
			Do:    firewall(m, in),
		}
	case m.Reachable:
		return Finding{
			State: Note,
			What: in.Wordf("What this machine sends to itself arrives at %s. A firewall may still stop what other "+
				"machines send.", strings.Join(arrived, ", ")),
			Do: firewall(m, in),
		}
	}
	return Finding{State: OK, What: in.Wordf("What this machine sends to itself arrives at %s. Other machines cannot "+
		"send there, as configured.", strings.Join(arrived, ", "))}
}

// firewall says how a firewall is opened; nothing here does it.
func firewall(m *Machine, in *phrase.Language) string {
	switch m.System {
	case "windows":
		return in.Word("In Windows Security, Firewall & network protection, Allow an app through firewall, allow " +
			"Halfturn in private networks.")
	case "darwin":
		return in.Word("In System Settings, Network, Firewall, Options, allow incoming connections of halfturn.")
	}
	port := m.Port
	return in.Wordf("Let UDP port %s through the firewall; with ufw: sudo ufw allow %s/udp; with firewalld: sudo "+
		"firewall-cmd --permanent --add-port=%s/udp.", port, port, port)
}

const kib = 1 << 10

func receiveBuffer(m *Machine, in *phrase.Language) Finding {
	asked := strconv.Itoa(m.BufferAsked / kib)
	switch {
	case m.Buffer <= 0:
		return Finding{State: OK, What: in.Wordf("%s KiB are asked for; this system says only at a start whether it "+
			"grants them.", asked)}
	case m.Buffer < m.BufferAsked:
		return Finding{
			State: Note,
			What: in.Wordf("The system grants %s of the %s KiB that are asked for: bursts from many stations may be "+
				"lost.", strconv.Itoa(m.Buffer/kib), asked),
			Do: in.Wordf("To allow it: %s", "sudo sysctl -w net.core.rmem_max="+strconv.Itoa(m.BufferAsked)),
		}
	}
	return Finding{State: OK, What: in.Wordf("The system grants the %s KiB that are asked for.", asked)}
}

func pages(m *Machine, in *phrase.Language) Finding {
	switch {
	case m.HTTPError == nil:
		return Finding{State: OK, What: in.Wordf("%s is free.", m.HTTP)}
	case m.Running:
		return Finding{State: OK, What: in.Wordf("Halfturn is running, and serves its pages at %s.", m.HTTP)}
	case m.HTTPBusy:
		return Finding{State: Trouble, What: in.Wordf("%s is taken by another program.", m.HTTP),
			Do: in.Word("Stop that program, or choose another port with --http.")}
	}
	return Finding{State: Trouble, What: in.Error(m.HTTPError), Do: in.Word("Choose another address with --http.")}
}

func dataDirectory(m *Machine, in *phrase.Language) Finding {
	if m.DataError != nil {
		return Finding{State: Trouble, What: in.Wordf("%s cannot be written: %s", m.Data, in.Error(m.DataError)),
			Do: in.Word("Let whoever runs Halfturn write there, or name another directory with --data.")}
	}
	return Finding{State: OK, What: in.Wordf("%s can be written.", m.Data)}
}

// Limits of free disk, in hours of flight.
const (
	fewHours = 20
	noHours  = 1
)

func freeDisk(m *Machine, in *phrase.Language) Finding {
	if m.Free < 0 {
		return Finding{State: Note, What: in.Word("This system does not say how much of the disk is free.")}
	}
	const gb = 1e9
	hours := float64(m.Free) / float64(m.PerHour)
	f := Finding{State: OK, What: in.Wordf("%s GB are free: %s hours of flight of one station, at %s MB an hour.",
		in.Number(float64(m.Free)/gb, 1), in.Number(float64(int(hours)), 0), in.Number(float64(m.PerHour)/1e6, 1))}
	if !m.Measured {
		f.What += " " + in.Word("The hour is an assumption: nothing was flown here yet.")
	}
	if hours < fewHours {
		f.State = Note
		f.Do = in.Word("Make room, or have old sessions deleted: keep-days and keep-size in [recording], or halfturn " +
			"sessions prune.")
	}
	if hours < noHours {
		f.State = Trouble
	}
	return f
}

// firstYear is one that no clock that is right can be before.
const firstYear = 2026

func clock(m *Machine, in *phrase.Language) Finding {
	const written = "2006-01-02 15:04"
	now := m.Now.Format(written)
	do := in.Word("Set the clock: sessions are named and sorted by it.")
	switch {
	case m.Now.Year() < firstYear:
		return Finding{State: Trouble, Do: do,
			What: in.Wordf("It says %s, which is before this program was made.", now)}
	case m.Newest.Sub(m.Now) > time.Hour:
		ended := m.Newest.In(m.Now.Location()).Format(written)
		return Finding{State: Trouble, Do: do,
			What: in.Wordf("It says %s, but a session here ended at %s.", now, ended)}
	}
	return Finding{State: OK, What: in.Wordf("It says %s.", now)}
}

func openFiles(m *Machine, in *phrase.Language) Finding {
	if m.Files > 0 && m.Files < m.FilesEnough {
		return Finding{
			State: Note,
			What: in.Wordf("At most %s files may be open at once, so the pages take at most %s connections.",
				strconv.Itoa(m.Files), strconv.Itoa(m.Connections)),
			Do: in.Wordf("A limit of %s is enough for all: ulimit -n, or LimitNOFILE of the service.",
				strconv.Itoa(m.FilesEnough)),
		}
	}
	return Finding{State: OK, What: in.Word("As many files may be open at once as are needed.")}
}

func stations(m *Machine, in *phrase.Language) Finding {
	if m.Capacity == 0 {
		return Finding{}
	}
	can := in.Wordf("This machine can take about %s stations that send 60 times a second.", strconv.Itoa(m.Capacity))
	if m.MaxStations > m.Capacity {
		most := strconv.Itoa(m.MaxStations)
		return Finding{State: Note, What: can,
			Do: in.Wordf("max-stations allows %s: lower it, or take a larger machine.", most)}
	}
	return Finding{State: OK, What: can}
}

func voice(m *Machine, in *phrase.Language) Finding {
	return Finding{
		State: Note,
		What:  in.Word("Whether the browser has a voice cannot be seen from here."),
		Do: in.Wordf("Open %s in the browser and switch the voice on: where there is none, the panel says so and "+
			"plays tones only.", m.URL),
	}
}

func speech(m *Machine, in *phrase.Language) Finding {
	switch {
	case m.Speech == "":
		return Finding{}
	case m.SpeechError != nil:
		return Finding{State: Trouble, What: in.Wordf("%s cannot be run: %s", m.Speech, m.SpeechError.Error()),
			Do: in.Word("Install it, or correct command in [speech].")}
	}
	return Finding{State: OK, What: in.Wordf("%s is there.", m.Speech)}
}
