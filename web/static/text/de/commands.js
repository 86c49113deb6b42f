// German of what commands say about what is asked of them, and of people, stations and certificates; a format keeps
// its verbs. The pages do not load it.

/** @type {Readonly<Record<string, string>>} */
export const commands = {
  '--data and --cluster name two places; give one of them':
    '--data und --cluster nennen zwei Orte; einen davon angeben',
  '%s names no database: each node has its own people and logbook; name the data directory of one with --data':
    '%s nennt keine Datenbank, also hat jeder Knoten eigene Personen und ein eigenes Flugbuch; mit --data ' +
    'das Datenverzeichnis eines Knotens angeben',
  '--data is a data directory, and no connection string; what works on a cluster takes its file with --cluster':
    '--data ist ein Datenverzeichnis und keine Verbindungsangabe; was an einem Verbund arbeitet, bekommt ' +
    'dessen Datei mit --cluster',
  '--from and --to are both %s; name two places':
    '--from und --to sind beide %s; zwei Orte angeben',
  '%s holds other sessions or people already, and nothing was changed there; name an empty one':
    '%s enthält schon andere Sitzungen oder Personen, dort wurde nichts geändert; einen leeren Ort angeben',
  'there is no logbook in %s; name the data directory':
    'in %s ist kein Flugbuch; das Datenverzeichnis angeben',
  'interrupted: nothing of what was under way is kept; run the same command again':
    'unterbrochen: Was im Gang war, ist nicht übernommen; denselben Befehl noch einmal geben',
  '%s and %d users are copied from %s to %s.':
    '%s und %d Benutzer sind von %s nach %s kopiert.',
  '%s and %d users are in %s already.':
    '%s und %d Benutzer sind schon in %s.',
  'Digest of the logbook: %s':
    'Prüfsumme des Flugbuchs: %s',
  'Digest of people: %s':
    'Prüfsumme der Personen: %s',
  '%d MB of disk are used': '%d MB Platte sind belegt',
  '%d datagrams sent to %s, %d refused, %d failed': '%d Datagramme an %s gesendet, %d abgewiesen, %d fehlgeschlagen',
  '%d of %d MB of disk are used': '%d von %d MB Platte sind belegt',
  ['%d streams, of which %d were made now, %d changed, and %d have replicas that are not up to date; %d ' +
    'messages']:
    '%d Streams, davon %d jetzt angelegt, %d geändert, und %d mit Kopien, die nicht auf dem Stand sind; %d ' +
    'Nachrichten',
  '%q is one argument too many, or no command': '%q ist ein Argument zu viel, oder kein Befehl',
  ['%s. The name was written over where it could be found: look at the file, and delete it if you need it no ' +
    'more.']:
    '%s. Der Name wurde überschrieben, wo er zu finden war: die Datei ansehen, und löschen, wenn sie nicht mehr ' +
    'gebraucht wird.',
  'PostgreSQL at %s, database %s': 'PostgreSQL auf %s (Datenbank %s)',
  'bucket %s at %s': 'Bucket %s auf %s',
  '%s can be used': '%s ist benutzbar',
  '%s has a new key. %s': '%s hat einen neuen Schlüssel. %s',
  '%s has the tables': '%s hat die Tabellen',
  'version %s':
    'Version %s',
  '%s had no tables: they were made now':
    '%s hatte keine Tabellen: Sie sind jetzt angelegt',
  ['%s had tables of an older version: they were changed now (logbook from shape %d to %d, people from ' +
    '%d to %d)']:
    '%s hatte Tabellen einer älteren Version: Sie sind jetzt geändert (Flugbuch von Form %d zu %d, ' +
    'Personen von %d zu %d)',
  '%d MB are used; %d of %d connections are free':
    '%d MB sind belegt; %d von %d Verbindungen sind frei',
  '%d of %d connections are free, and a node may need %d: raise max_connections, or run fewer nodes':
    '%d von %d Verbindungen sind frei, und ein Knoten kann %d brauchen: max_connections erhöhen, oder ' +
    'weniger Knoten betreiben',
  'the store calls itself %s':
    'der Speicher nennt sich %s',
  '%s was made now, and can be used':
    '%s ist jetzt angelegt und benutzbar',
  ['the bucket keeps old versions of objects, and with them what is forgotten: switch versioning off and ' +
    'remove the old versions']:
    'der Bucket behält alte Versionen von Objekten, und mit ihnen, was vergessen wird: Versionierung ' +
    'abschalten und die alten Versionen löschen',
  '%s is %d; legs count from 1': '%s ist %d; Teile zählen ab 1',
  '%s is %q; must be %s': '%s ist %q; muss %s sein',
  '%s is %s; must be %s': '%s ist %s; muss %s sein',
  '%s is %s; must be a number': '%s ist %s; muss eine Zahl sein',
  '%s is %s; must be a time such as 90s, 5m or 24h': '%s ist %s; muss eine Zeit sein, etwa 90s, 5m oder 24h',
  '%s is %s; must be a whole number': '%s ist %s; muss eine ganze Zahl sein',
  '%s is %v; must be 0 or more': '%s ist %v; muss 0 oder mehr sein',
  '%s is %v; must be between %v and %v': '%s ist %v; muss zwischen %v und %v liegen',
  '%s is added. %s': '%s ist angelegt. %s',
  '%s is no PEM file': '%s ist keine PEM-Datei',
  '%s is not its key': '%s ist nicht ihr Schlüssel',
  ['%s is removed, and can log in no more. What they flew and said stays, as do links made for them (%d) and ' +
    'their name in the log (%d entries). To delete all of it: halfturn students forget %q']:
    '%s ist entfernt und kann sich nicht mehr anmelden. Geflogenes und Gesagtes bleibt, ebenso Links für diese ' +
    'Person (%d) und der Name im Protokoll (%d Einträge). Alles davon löscht: halfturn students forget %q',
  '%s is removed.': '%s ist entfernt.',
  '%s must be 0 or more': '%s muss 0 oder mehr sein',
  '%s needs a value': '%s braucht einen Wert',
  '%s takes one log; %d are given': '%s nimmt eine Aufzeichnung; angegeben sind %d',
  '%s, %s of %s. First password: %s': '%s, %s für %s. Erstes Passwort: %s',
  '%s, %s of %s. Their logins have ended.': '%s, %s für %s. Die Anmeldungen sind beendet.',
  '%s, not yet': '%s, noch nicht',
  'From the list of people: users: %d, logins: %d, links: %d, entries of the log: %d.':
    'Aus der Liste der Personen: Benutzer: %d, Anmeldungen: %d, Links: %d, Einträge des Protokolls: %d.',
  '%s: sessions flown by %s: %d, sessions of others that name them: %d.':
    '%s: Sitzungen, die %s geflogen hat: %d, Sitzungen anderer mit diesem Namen: %d.',
  '%s: the demonstration chooses what it flies; halfturn fly --maneuver NAME flies one for halfturn serve':
    '%s: die Vorführung wählt selbst, was sie fliegt; halfturn fly --maneuver NAME fliegt eines für halfturn serve',
  '%s; %s --help lists the commands and flags': '%s; %s --help zeigt die Befehle und Optionen',
  '%w (a running halfturn serve shows the same at %s)': '%w (ein laufendes halfturn serve zeigt dasselbe auf %s)',
  '%w; then: halfturn stations renew %q': '%w; dann: halfturn stations renew %q',
  'Node %s': 'Knoten %s',
  'a command is missing: %s': 'ein Befehl fehlt: %s',
  'a program listens at %s again': 'ein Programm hört wieder auf %s',
  'after %s s %s': 'nach %s s: %s',
  'All sessions: halfturn sessions list. One of them: halfturn sessions show SESSION':
    'Alle Sitzungen: halfturn sessions list. Eine davon: halfturn sessions show SITZUNG',
  'ahead of': 'vor',
  'as an administrator': 'als Administrator',
  BY: 'VON',
  behind: 'hinter',
  'datagrams to %s cannot be sent: %v; sending goes on':
    'Datagramme an %s lassen sich nicht senden: %v; es wird weiter gesendet',
  'did you mean %s?': 'gemeint ist vielleicht %s',
  FOR: 'FÜR',
  FROM: 'VON',
  GROUP: 'GRUPPE',
  'group %s': 'Gruppe %s',
  ID: 'KENNUNG',
  instructor: 'Lehrer',
  'interrupted: %d of %d files were graded': 'unterbrochen: %d von %d Dateien wurden bewertet',
  'is %d; same-direction needs a leg before it: 2 or more':
    'ist %d; same-direction braucht einen Teil davor: 2 oder mehr',
  'is %q; for a %s must be %s': 'ist %q; muss beim Manöver %s %s sein',
  'is %q; must be %s': 'ist %q; muss %s sein',
  'is %q; must be %s, or a number between %v and %v': 'ist %q; muss %s sein, oder eine Zahl zwischen %v und %v',
  'is %q; must be a number with h, d or w, such as 90d':
    'ist %q; muss eine Zahl mit h, d oder w (Stunden, Tagen, Wochen) sein, etwa 90d',
  'is %q; must be a number with KB, MB, GB or TB, such as 20GB':
    'ist %q; muss eine Zahl mit KB, MB, GB oder TB sein, etwa 20GB',
  'is %q; must be FROM/SPEED in degrees and knots, such as 270/15':
    'ist %q; muss WOHER/GESCHWINDIGKEIT in Grad und Knoten sein, etwa 270/15',
  'is %q; must be HOST:PORT such as 127.0.0.1:7181, the port between 1 and 65535':
    'ist %q; muss RECHNER:PORT sein, etwa 127.0.0.1:7181, der Port zwischen 1 und 65535',
  'is %s; a brief is of one maneuver: choose it with --maneuver NAME (halfturn cards lists them)':
    'ist %s; ein Briefing gilt für ein Manöver: es mit --maneuver NAME wählen (halfturn cards zeigt alle)',
  'is %v; must be between %v and %v': 'ist %v; muss zwischen %v und %v liegen',
  'It has no key.': 'Er hat keinen Schlüssel.',
  'Its key is in %s.': 'Der Schlüssel steht in %s.',
  'Its key, told once: %s': 'Der Schlüssel, nur dieses Mal gezeigt: %s',
  ['Keep %s to yourself: whoever has it can pass for any server to those devices. When no further certificate ' +
    'is to be made, delete it.']:
    '%s für sich behalten: wer die Datei hat, kann sich bei diesen Geräten als jeder Server ausgeben. Wenn kein ' +
    'weiteres Zertifikat anzulegen ist, löschen.',
  'KEY LAST USED': 'SCHLÜSSEL ZULETZT BENUTZT',
  NAME: 'NAME',
  never: 'nie',
  'New password of %s: %s': 'Neues Passwort von %s: %s',
  'No station has a key or a group. One is added by: halfturn stations add NAME':
    'Kein Platz hat einen Schlüssel oder eine Gruppe. Einen legt an: halfturn stations add NAME',
  'No student is named in the logbook. Say who flew: halfturn sessions student SESSION NAME':
    'Im Flugbuch ist kein Schüler genannt. Sagen, wer geflogen ist: halfturn sessions student SITZUNG NAME',
  'nobody listens at %s; start halfturn serve first, or give another address with --to':
    'auf %s hört niemand; zuerst halfturn serve starten, oder mit --to eine andere Adresse angeben',
  'nobody listens at %s; start halfturn serve, or give another address with --to; sending goes on':
    'auf %s hört niemand; halfturn serve starten, oder mit --to eine andere Adresse angeben; es wird weiter ' +
    'gesendet',
  'none: each node keeps what it flew': 'keine: jeder Knoten behält, was er geflogen hat',
  'nothing could be sent to %s: %w; give another address with --to':
    'an %s ließ sich nichts senden: %w; mit --to eine andere Adresse angeben',
  ['Nothing is deleted yet. Sessions flown by %s: %d. Sessions of others that name them: %d. Add --yes to ' +
    'delete the first, and the name in the others.']:
    'Noch ist nichts gelöscht. Sitzungen, die %s geflogen hat: %d. Sitzungen anderer mit diesem Namen: %d. Mit ' +
    '--yes werden die ersten gelöscht, und der Name in den anderen.',
  ON: 'AN',
  'open it there, install the profile in Settings; then switch it on in General, About, Certificate Trust Settings':
    'dort öffnen, das Profil in den Einstellungen installieren; dann einschalten unter Allgemein, Info, ' +
    'Zertifikatsvertrauenseinstellungen',
  owner: 'Eigentümer',
  'Put this into the configuration, and start Halfturn again:':
    'Dies in die Konfiguration schreiben, und Halfturn neu starten:',
  'Removed: %s, %s.': 'Entfernt: %s, %s.',
  ROLE: 'ROLLE',
  'say by what: %s, %s, or both': 'sagen, wonach: %s, %s, oder beides',
  SESSIONS: 'SITZUNGEN',
  'Sessions deleted: %d. Sessions of others from which the name was removed: %d.':
    'Gelöschte Sitzungen: %d. Sitzungen anderer, aus denen der Name entfernt wurde: %d.',
  'sessions: %d, signed: %d': 'Sitzungen: %d, unterschrieben: %d',
  'Settings, Privacy & Security, Certificates, View Certificates, Authorities, Import':
    'Einstellungen, Datenschutz & Sicherheit, Zertifikate, Zertifikate anzeigen, Zertifizierungsstellen, ' +
    'Importieren',
  'Settings, Security, Encryption & credentials, Install a certificate, CA certificate':
    'Einstellungen, Sicherheit, Verschlüsselung und Anmeldedaten, Zertifikat installieren, CA-Zertifikat',
  SINCE: 'SEIT',
  STATIONS: 'PLÄTZE',
  STATUS: 'STATUS',
  student: 'Schüler',
  'Take %s to each device that opens the pages, and have it trusted there:':
    '%s auf jedes Gerät bringen, das die Seiten öffnet, und ihm dort vertrauen lassen:',
  'something stands in the way of the cluster': 'etwas steht dem Verbund im Weg',
  'the authority in %s cannot be used: %w; move both files away to make another':
    'die Zertifizierungsstelle in %s ist nicht zu gebrauchen: %w; beide Dateien wegbewegen, um eine andere ' +
    'anzulegen',
  'the authority in %s has run out; move it away to make another':
    'die Zertifizierungsstelle in %s ist abgelaufen; wegbewegen, um eine andere anzulegen',
  'The authority is the same as before; nothing needs to be done on the other devices.':
    'Die Zertifizierungsstelle ist dieselbe wie zuvor; an den anderen Geräten ist nichts zu tun.',
  'the card cannot be copied: %w': 'die Karte lässt sich nicht kopieren: %w',
  'the card cannot be written: %w': 'die Karte lässt sich nicht schreiben: %w',
  'the certificate and its key cannot be used: %w': 'das Zertifikat und sein Schlüssel sind nicht zu gebrauchen: %w',
  'the certificate cannot be made for %s: %w': 'das Zertifikat lässt sich nicht anlegen für %s: %w',
  'The certificate is for %s, until %s.': 'Das Zertifikat ist für %s, bis %s.',
  'The configuration names them as the student of a station: delete that there.':
    'Die Konfiguration nennt diesen Namen als Schüler eines Platzes: dort löschen.',
  'the clock of this machine is %v %s that of node %s; set both by the network (NTP)':
    'die Uhr dieses Rechners geht %v %s der von Knoten %s; beide nach dem Netz stellen (NTP)',
  'the direction': 'die Richtung',
  'the files cannot be written: %w': 'die Dateien lassen sich nicht schreiben: %w',
  'The files: halfturn simulators copy DIR': 'Die Dateien: halfturn simulators copy ORDNER',
  'the first user must be an owner, so that somebody can manage the others: --role owner':
    'der erste Benutzer muss Eigentümer sein, damit jemand die anderen verwalten kann: --role owner',
  'the key cannot be written: %w': 'der Schlüssel lässt sich nicht schreiben: %w',
  'The key of %s no longer works.': 'Der Schlüssel von %s gilt nicht mehr.',
  'The link %s has ended.': 'Der Link %s ist beendet.',
  'the name %q is taken; choose another': 'der Name %q ist vergeben; einen anderen wählen',
  'The name still stands in %s: delete it if you need it no more.':
    'Der Name steht noch in %s: die Datei löschen, wenn sie nicht mehr gebraucht wird.',
  'The new grades are kept in the session\'s folder as %s. To show them: halfturn sessions show %s --grading %d':
    'Die neuen Noten stehen im Ordner der Sitzung als %s. Sie zeigt: halfturn sessions show %s --grading %d',
  'the pages\' address %s cannot be listened on: %w; choose another':
    'auf der Adresse %s der Seiten lässt sich nicht hören: %w; eine andere wählen',
  'the pages\' address %s is taken by another program; stop it, or choose another':
    'die Adresse %s der Seiten belegt ein anderes Programm; es beenden, oder eine andere wählen',
  'the speed': 'die Geschwindigkeit',
  'The steps: halfturn simulators show NAME': 'Die Schritte: halfturn simulators show NAME',
  'the summary cannot be printed: %v': 'die Zusammenfassung lässt sich nicht ausgeben: %v',
  ['There are no users; whoever is at this machine is its owner. The first is added by: halfturn users add ' +
    '--role owner NAME']:
    'Es gibt keine Benutzer; wer an diesem Rechner ist, ist sein Eigentümer. Den ersten legt an: halfturn users ' +
    'add --role owner NAME',
  'there is no card %q; halfturn cards lists them': 'es gibt keine Karte %q; halfturn cards zeigt alle',
  'there is no check %q; there are: %s': 'es gibt keinen Prüfpunkt %q; es gibt: %s',
  'there is no flag %s': 'es gibt keine Option %s',
  'there is no guide %q; there are: %s': 'es gibt keine Anleitung %q; es gibt: %s',
  'there is no link %q; halfturn invitations list lists them':
    'es gibt keinen Link %q; halfturn invitations list zeigt alle',
  'There is no link. One is made by: halfturn invitations add STATION':
    'Es gibt keinen Link. Einen legt an: halfturn invitations add PLATZ',
  'there is no station %q; halfturn stations list lists them':
    'es gibt keinen Platz %q; halfturn stations list zeigt alle',
  'there is no user %q; halfturn users list lists them': 'es gibt keinen Benutzer %q; halfturn users list zeigt alle',
  'To be removed: %s, %s; --yes removes what is listed.': 'Zu entfernen: %s, %s; --yes entfernt, was hier steht.',
  'two cards are named: %q, and %q by --maneuver; leave one out':
    'zwei Karten sind genannt: %q, und %q mit --maneuver; eine weglassen',
  UNTIL: 'BIS',
  'Users removed: %d. Links ended: %d. Entries of the log without the name now: %d.':
    'Benutzer entfernt: %d. Links beendet: %d. Einträge des Protokolls nun ohne den Namen: %d.',
  viewer: 'Gast',
  WHAT: 'WAS',
  'version %s, server %s': 'Version %s, Server %s',
  'what is missing: %s': 'was fehlt: %s',
  WHEN: 'WANN',
  'which check is meant is missing; there are: %s': 'welcher Prüfpunkt gemeint ist, fehlt; es gibt: %s',
  WHO: 'WER',
  'Whoever has this link watches %s until %s:': 'Wer diesen Link hat, sieht bei %s zu, bis %s:',
  'With --yes there go, too, their user: %d, links made for them: %d, and the name in entries of the log: %d.':
    'Mit --yes werden auch gelöscht: der Benutzer: %d, Links für ihn: %d, und der Name in Einträgen des ' +
    'Protokolls: %d.',
  '--pprof is %q; must be HOST:PORT such as 127.0.0.1:6060':
    '--pprof ist %q; muss HOST:PORT sein, etwa 127.0.0.1:6060',
  '--pprof is %q; must be a loopback address such as 127.0.0.1:6060, because profiles show what the program does':
    '--pprof ist %q; muss eine Loopback-Adresse sein, etwa 127.0.0.1:6060, denn Profile ' +
    'zeigen, was das Programm tut',
  'profiles cannot be served: %w; choose another address':
    'die Profile können nicht angeboten werden: %w; wähle eine andere Adresse',

  // courses
  'COURSE': 'LEHRGANG',
  'STEPS': 'SCHRITTE',
  'TITLE': 'TITEL',
  'WHAT IT IS': 'WAS ES IST',
  'step': 'Schritt',
  'what': 'was',
  'prompts': 'Ansagen',
  'passed by': 'bestanden durch',
  'state': 'Stand',
  'against: %s': 'gegen: %s',
  '%s, steps passed: %d of %d': '%s, bestandene Schritte: %d von %d',
  'all cues': 'alle',
  'fading': 'weniger werdend',
  'no cues': 'keine',
  'one try to each side a day': 'ein Versuch je Seite am Tag',
  '%d good of the last %d, to each side': '%d gute der letzten %d, nach jeder Seite',
  '%d good of the last %d': '%d gute der letzten %d',
  'passed': 'bestanden',
  'open': 'offen',
  'slipped': 'nachgelassen',
  'not yet open': 'noch nicht offen',
  'right %d of %d': 'rechts %d von %d',
  'left %d of %d': 'links %d von %d',
  'missed most: %s (%d of %d)': 'am häufigsten verfehlt: %s (%d von %d)',
  '%s, %s standard, prompts: %s': '%s, Standard %s, Ansagen: %s',
  'what counts: %s': 'was zählt: %s',
  'passed by: %s': 'bestanden durch: %s',
  'source: %s': 'Quelle: %s',
  'state: %s, tries: %d, good: %d': 'Stand: %s, Versuche: %d, gute: %d',
  'passed by these legs': 'bestanden durch diese Teile',
  'latest legs': 'letzte Teile',
  'not good': 'nicht gut',
  ' (overruled)': ' (aufgehoben)',
  'a good course, steps: %d': 'ein guter Lehrgang, Schritte: %d',
  'the course cannot be written: %w': 'der Lehrgang lässt sich nicht schreiben: %w',
  'Change it, check it with: halfturn course check %s': 'Ändern, prüfen mit: halfturn course check %s',
  'and use it with --cards DIR, after moving it to DIR/courses':
    'und mit --cards DIR verwenden, nachdem er nach DIR/courses verschoben ist',
  'the course %s is not built from a cause; leave out --cause and --maneuver':
    'der Lehrgang %s wird nicht aus einer Ursache gebildet; --cause und --maneuver weglassen',
  '--cause and --maneuver must be given together': '--cause und --maneuver müssen zusammen angegeben werden',
  'nothing that a course can be built from was found: name a weakness with --cause and --maneuver':
    'es wurde nichts gefunden, woraus ein Lehrgang gebildet werden kann: eine Schwäche mit --cause und ' +
    '--maneuver nennen',
  '%d of %d': '%d von %d',
  'leg %d': 'Teil %d',
  '%s is missing: say whose': '%s fehlt: angeben, für wen',
  '%s, for %s: %s min': '%s, für %s: %s min',
  'Drill: %s': 'Übung: %s',
  'what counts': 'was zählt',
  'what is said': 'was gesagt wird',
  'done after': 'geschafft nach',
  '%d good legs in a row': '%d guten Teilen hintereinander',
  'last time': 'letztes Mal',
  '%d in a row': '%d hintereinander',
  '%s at %s°': '%s bei %s°',
  'nothing but safety, and how the leg went': 'nur Sicherheit, und wie der Teil war',
  'Set it up with "Drill this" beside the cause in the debrief.':
    'Einrichten mit „Das üben“ neben der Ursache in der Nachbesprechung.',
  'say what to drill: --cause and --maneuver, or --student':
    'angeben, was geübt wird: --cause und --maneuver, oder --student',
  'nothing that can be drilled was found: name an error with --cause and --maneuver':
    'es wurde nichts gefunden, was geübt werden kann: einen Fehler mit --cause und --maneuver nennen',
  'no test is published; the checks of the card': 'keine Prüfung veröffentlicht; die Prüfpunkte der Karte',
  'form: %s; it stands with the session': 'Formular: %s; es steht bei der Sitzung',
  'prompts now: %s': 'Ansagen jetzt: %s',
  'Nothing is left to fly in this course.': 'In diesem Lehrgang ist nichts mehr zu fliegen.',
  'fly': 'fliegen',
  'begin': 'Beginn',
  'why': 'warum',
  '%s; may be left out': '%s; kann entfallen',
  'First of all: %s': 'Vor allem: %s',
  '%s, legs in the last seven days: %d, in the four weeks before: %d':
    '%s, Teile in den letzten sieben Tagen: %d, in den vier Wochen davor: %d',
  'Steadier': 'Sicherer',
  'Less steady': 'Unsicherer',
  'Still missed': 'Noch verfehlt',
  'met %d of %d, before %d of %d': 'erfüllt %d von %d, davor %d von %d',
  'No check has changed clearly.': 'Kein Prüfpunkt hat sich deutlich verändert.',
  'name the course that --cause and --maneuver are for': 'den Lehrgang nennen, für den --cause und --maneuver gelten',
  'the course is missing; name one, or a student with --student':
    'der Lehrgang fehlt; einen nennen, oder jemanden mit --student',
  'required grade: %s, the latest: %s': 'geforderte Note: %s, die letzte: %s',
  'none yet': 'noch keine',
  'passed, says %s: %s': 'bestanden, sagt %s: %s',
  'not yet, says %s: %s': 'noch nicht, sagt %s: %s',
  'somebody': 'jemand',
  ' (signed)': ' (unterschrieben)',
  '%s now flies: %s': '%s fliegt jetzt: %s',
  'The ruling on %s is kept.': 'Die Entscheidung über %s ist gespeichert.',
  'The step %s is by the rule again.': 'Der Schritt %s ist wieder nach der Regel.',
  'minutes': 'Minuten',
};
