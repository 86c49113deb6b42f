// How each simulator is set up, in German; the keys are those of configs/simulators/guides.toml.

const serve = 'Halfturn starten mit: halfturn serve';

/** @type {Readonly<Record<string, string>>} */
export const guides = {
  'X-Plane 11 and 12: Halfturn asks (nothing to switch on)':
    'X-Plane 11 und 12: Halfturn fragt (nichts einzuschalten)',
  'Halfturn asks port 49000 of the simulator, and hears its beacon on 239.255.1.1 port 49707':
    'Halfturn fragt Port 49000 des Simulators und hört sein Funkfeuer auf 239.255.1.1 Port 49707',
  ['Every channel the maneuver cards need; the ball is worked out from the lateral load. 30 values a second ' +
    'unless the key rate under [subscribe] says another; never faster than the simulator draws pictures.']:
    'Jeder Kanal, den die Manöverkarten brauchen; die Kugel wird aus der seitlichen Last berechnet. 30 Werte je ' +
    'Sekunde, wenn der Schlüssel rate unter [subscribe] nichts anderes sagt; nie schneller, als der Simulator ' +
    'Bilder zeichnet.',
  'Start the simulator and load a flight.': 'Den Simulator starten und einen Flug laden.',
  'Start Halfturn with: halfturn serve. It asks the simulator of its own machine by itself.':
    `${serve}. Den Simulator des eigenen Rechners fragt es von selbst.`,
  ['When the simulator runs on another machine, enter its address on the page Set-up and press Ask it, or ' +
    'start Halfturn with: halfturn serve --subscribe ADDRESS']:
    'Läuft der Simulator auf einem anderen Rechner, dessen Adresse auf der Seite Einrichtung eingeben und Fragen ' +
    'drücken, oder Halfturn starten mit: halfturn serve --subscribe ADRESSE',
  'If a firewall asks whether the simulator may receive from the network, allow it.':
    'Wenn eine Firewall fragt, ob der Simulator aus dem Netz empfangen darf, es erlauben.',
  'X-Plane 10 to 12: data output rows (DATA)': 'X-Plane 10 bis 12: Zeilen der Datenausgabe (DATA)',
  'sends to HOST, UDP port 7181': 'sendet an HOST, UDP-Port 7181',
  ['Every channel the cards need, as 32-bit numbers, up to 60 a second; the ball is worked out from the ' +
    'lateral load. Version 9 and older number some rows differently and are not read rightly.']:
    'Jeder Kanal, den die Karten brauchen, als 32-Bit-Zahlen, bis zu 60 je Sekunde; die Kugel wird aus der ' +
    'seitlichen Last berechnet. Version 9 und ältere zählen manche Zeilen anders und werden nicht richtig ' +
    'gelesen.',
  'In the simulator open Settings, Data Output.': 'Im Simulator Settings, Data Output öffnen.',
  ['Tick the box in the column of network output for these rows: 1 times, 3 speeds, 4 Mach/vertical speed/g ' +
    'load, 8 joystick, 16 angular velocities, 17 pitch/roll/headings, 18 angle of attack/side-slip, 20 ' +
    'latitude/longitude/altitude, 25 throttle command, 37 engine rpm, 38 propeller rpm, 41 N1. Without row 17 ' +
    'nothing works.']:
    'In der Spalte der Netzausgabe diese Zeilen ankreuzen: 1 times, 3 speeds, 4 Mach/vertical speed/g load, 8 ' +
    'joystick, 16 angular velocities, 17 pitch/roll/headings, 18 angle of attack/side-slip, 20 ' +
    'latitude/longitude/altitude, 25 throttle command, 37 engine rpm, 38 propeller rpm, 41 N1. Ohne Zeile 17 ' +
    'geht nichts.',
  'Tick Send network data output, and enter HOST as the IP address and 7181 as the port.':
    'Send network data output ankreuzen, HOST als IP-Adresse und 7181 als Port eingeben.',
  'Move the slider of the network rate to 60 packets a second.':
    'Den Regler der Netzrate auf 60 Pakete je Sekunde schieben.',
  ['Start Halfturn with: halfturn serve. When it runs on another machine than the simulator: ' +
    'halfturn serve --udp :7181']:
    `${serve}. Wenn es auf einem anderen Rechner läuft als der Simulator: halfturn serve --udp :7181`,
  'FlightGear: the generic protocol': 'FlightGear: das generic-Protokoll',
  ["Every channel the cards need, the simulator's own clock, up to the rate of its pictures. Tried on a " +
    "recorded 2020.3."]:
    'Jeder Kanal, den die Karten brauchen, die Uhr des Simulators, bis zur Rate seiner Bilder. Erprobt an einer ' +
    'Aufnahme von 2020.3.',
  'Start Halfturn with: halfturn serve. It should run before the simulator does.':
    `${serve}. Es sollte vor dem Simulator laufen.`,
  ['Start the simulator with the option --native-fdm=socket,out,60,HOST,7181,udp: its own protocol, which ' +
    'needs no file. Throttle and clock are missing there.']:
    'Den Simulator mit der Option --native-fdm=socket,out,60,HOST,7181,udp starten: sein eigenes Protokoll, das ' +
    'keine Datei braucht. Gashebel und Uhr fehlen darin.',
  ['For every channel, download halfturn.xml from the page Set-up (or write it out with halfturn simulators ' +
    'copy DIR) and put it into a folder Protocol of a folder of your choice, here DIR.']:
    'Für alle Kanäle halfturn.xml von der Seite Einrichtung herunterladen (oder mit halfturn simulators copy DIR ' +
    'herausschreiben) und in einen Ordner Protocol eines Ordners nach Wahl legen, hier DIR.',
  ['Then start the simulator with these two options in place of that one, DIR written out in full: --data=DIR ' +
    '--generic=socket,out,60,HOST,7181,udp,halfturn']:
    'Dann den Simulator statt mit jener mit diesen zwei Optionen starten, DIR ganz ausgeschrieben: --data=DIR ' +
    '--generic=socket,out,60,HOST,7181,udp,halfturn',
  'With the launcher, put the options into its box Additional Settings instead.':
    'Mit dem Starter stattdessen die Optionen in sein Feld Additional Settings schreiben.',
  ['To add or take out values, use halfturn-pairs in place of halfturn: name=value pairs can be read whatever ' +
    'is among them. halfturn-binary is shorter on the wire.']:
    'Um Werte hinzuzufügen oder wegzulassen, halfturn-pairs statt halfturn verwenden: Paare Name=Wert sind ' +
    'lesbar, was immer dabei ist. halfturn-binary ist kürzer auf der Leitung.',
  ["The folder Protocol must lie in the folder that --data names: one among the user's own settings is not " +
    "searched, and the simulator then sends nothing and says nothing."]:
    'Der Ordner Protocol muss in dem Ordner liegen, den --data nennt: einer unter den eigenen Einstellungen wird ' +
    'nicht durchsucht, und der Simulator sendet dann nichts und sagt nichts.',
  'JSBSim: the output socket': 'JSBSim: der Ausgabe-Socket',
  'sends to 127.0.0.1, UDP port 7181, as the file says': 'sendet an 127.0.0.1, UDP-Port 7181, wie die Datei sagt',
  "Every channel the cards need, the simulator's own clock, 60 lines a second. Tried on recorded flights.":
    'Jeder Kanal, den die Karten brauchen, die Uhr des Simulators, 60 Zeilen je Sekunde. Erprobt an ' +
    'aufgezeichneten Flügen.',
  'Download halfturn.xml from the page Set-up, or write it out with: halfturn simulators copy DIR':
    'halfturn.xml von der Seite Einrichtung herunterladen oder herausschreiben mit: halfturn simulators copy DIR',
  ['In halfturn.xml change the name (the address) and the port of <output> when Halfturn runs elsewhere, and ' +
    'the line with engine-rpm to propulsion/engine/propeller-rpm or propulsion/engine/n1 by the engine.']:
    'In halfturn.xml den name (die Adresse) und den Port von <output> ändern, wenn Halfturn anderswo ' +
    'läuft, und die Zeile mit engine-rpm je nach Triebwerk auf propulsion/engine/propeller-rpm oder ' +
    'propulsion/engine/n1.',
  ['Start Halfturn first, with: halfturn serve. The line of labels is sent once, when the simulator opens the ' +
    'socket.']:
    'Halfturn zuerst starten mit: halfturn serve. Die Zeile der Namen wird einmal gesendet, wenn der Simulator ' +
    'den Socket öffnet.',
  'Start the simulator in the folder of that file, with the option: --logdirectivefile=halfturn.xml':
    'Den Simulator im Ordner dieser Datei starten, mit der Option: --logdirectivefile=halfturn.xml',
  'Microsoft Flight Simulator and others with a local client interface (SimConnect): the bridge':
    'Microsoft Flight Simulator und andere mit örtlicher Programmschnittstelle (SimConnect): die Brücke',
  'the bridge sends to 127.0.0.1, UDP port 7181, or where you tell it':
    'die Brücke sendet an 127.0.0.1, UDP-Port 7181, oder wohin man ihr sagt',
  ['Attitude, speeds, altitude, height, load factor, ball, power and controls, up to 60 a second; rates are ' +
    'worked out. The bridge was tested against a stand-in for the client interface, NOT against the simulator ' +
    'itself: compare what halfturn probe shows with the instruments before you trust it, above all the sign of ' +
    'bank, pitch and ball.']:
    'Lage, Geschwindigkeiten, Höhen, Lastvielfaches, Kugel, Leistung und Ruder, bis zu 60 je Sekunde; Drehraten ' +
    'werden berechnet. Die Brücke wurde gegen einen Ersatz der Schnittstelle geprüft, NICHT gegen den Simulator ' +
    'selbst: vor dem Vertrauen vergleichen, was halfturn probe und die Instrumente zeigen, vor allem das ' +
    'Vorzeichen von Querlage, Längsneigung und Kugel.',
  "On the simulator's machine install Node.js 20.17 or later.":
    'Auf dem Rechner des Simulators Node.js 20.17 oder neuer installieren.',
  ['Download bridge.mjs from the page Set-up into a folder of its own, or write it out with: halfturn ' +
    'simulators copy DIR']:
    'bridge.mjs von der Seite Einrichtung in einen eigenen Ordner herunterladen oder herausschreiben mit: halfturn ' +
    'simulators copy DIR',
  'In that folder run, once: npm install node-simconnect@4.2.0':
    'In diesem Ordner einmal ausführen: npm install node-simconnect@4.2.0',
  'Start Halfturn with: halfturn serve. When it runs on another machine: halfturn serve --udp :7181':
    `${serve}. Wenn es auf einem anderen Rechner läuft: halfturn serve --udp :7181`,
  'In that folder run: node bridge.mjs --check. It says what is missing, and what to do about it.':
    'In diesem Ordner ausführen: node bridge.mjs --check. Es sagt, was fehlt, und was dagegen zu tun ist.',
  'Then run: node bridge.mjs. When Halfturn runs on another machine: node bridge.mjs HOST:7181':
    'Dann ausführen: node bridge.mjs. Wenn Halfturn auf einem anderen Rechner läuft: node bridge.mjs HOST:7181',
  'Any simulator with a bridge that speaks XATT and XGPS (tablet broadcast)':
    'Jeder Simulator mit einer Brücke, die XATT und XGPS spricht (Rundsendung an Tablets)',
  'such bridges send to UDP port 49002, often to everyone on the network':
    'solche Brücken senden an UDP-Port 49002, oft an alle im Netz',
  ['Attitude 4 to 10 times a second, position once a second, no airspeed, no power, no load factor: bank, ' +
    'nose and turn are coached coarsely, and what needs the rest reads not measured.']:
    'Lage 4- bis 10-mal je Sekunde, Position einmal je Sekunde, keine Fahrt, keine Leistung, kein ' +
    'Lastvielfaches: Querlage, Nase und Kurve werden grob begleitet; was den Rest braucht, heißt nicht gemessen.',
  'In the bridge switch on attitude (XATT) beside position (XGPS), at its highest rate.':
    'In der Brücke neben der Position (XGPS) die Lage (XATT) einschalten, mit höchster Rate.',
  'If it lets you enter an address, give HOST and 49002.': 'Wenn eine Adresse einzugeben ist: HOST und 49002.',
  'Start Halfturn with: halfturn serve --udp 0.0.0.0:49002': `${serve} --udp 0.0.0.0:49002`,
  ['For an airspeed estimated from ground speed, wrong by the wind, put the line ground-speed-as-airspeed = ' +
    'true into the configuration file and add --config FILE.']:
    'Für eine aus der Geschwindigkeit über Grund geschätzte Fahrt, falsch um den Wind, die Zeile ' +
    'ground-speed-as-airspeed = true in die Konfigurationsdatei schreiben und --config FILE anfügen.',
  'When probe says that bank and turn disagree, put the line bank-sign = "reversed" there too.':
    'Wenn probe sagt, dass Querlage und Kurve sich widersprechen, dort auch die Zeile bank-sign = "reversed" ' +
    'einfügen.',
  'Any simulator with a bridge that speaks GDL 90': 'Jeder Simulator mit einer Brücke, die GDL 90 spricht',
  'such bridges send to UDP port 4000': 'solche Brücken senden an UDP-Port 4000',
  ['Attitude about 5 to 10 times a second, where the bridge sends it (message 0x65 or 0x4C); position and ' +
    'altitude once a second in steps of 25 ft; airspeed only where message 0x65 carries it. What is missing ' +
    'reads not measured.']:
    'Lage etwa 5- bis 10-mal je Sekunde, wo die Brücke sie sendet (Nachricht 0x65 oder 0x4C); Position und Höhe ' +
    'einmal je Sekunde in Schritten von 25 ft; Fahrt nur, wo Nachricht 0x65 sie trägt. Was fehlt, heißt nicht ' +
    'gemessen.',
  ['In the bridge switch on attitude (AHRS) beside the ownship report, and enter HOST as the address and 4000 ' +
    'as the port.']:
    'In der Brücke neben der Eigenmeldung (ownship report) die Lage (AHRS) einschalten und HOST als Adresse und ' +
    '4000 als Port eingeben.',
  'Start Halfturn with: halfturn serve --udp 0.0.0.0:4000': `${serve} --udp 0.0.0.0:4000`,
  'When no attitude comes, nothing can be coached: look for another bridge, or use the one above.':
    'Wenn keine Lage kommt, lässt sich nichts begleiten: eine andere Brücke suchen oder die obige verwenden.',
  ['When probe says that bank and turn disagree, put the line bank-sign = "reversed" into the configuration ' +
    'file and add --config FILE.']:
    'Wenn probe sagt, dass Querlage und Kurve sich widersprechen, die Zeile bank-sign = "reversed" in die ' +
    'Konfigurationsdatei schreiben und --config FILE anfügen.',
  'Simulated autopilots that speak MAVLink': 'Simulierte Autopiloten, die MAVLink sprechen',
  'sends to HOST, UDP port 14550 by custom, or any you choose':
    'sendet an HOST, UDP-Port 14550 nach Brauch oder einen nach Wahl',
  ['Attitude, speeds and altitude at the rates the autopilot sends them; no height above ground. Ask for ' +
    'ATTITUDE and VFR_HUD at 20 a second or more.']:
    'Lage, Geschwindigkeiten und Höhe mit den Raten, die der Autopilot sendet; keine Höhe über Grund. ATTITUDE ' +
    'und VFR_HUD mit 20 je Sekunde oder mehr anfordern.',
  'Let the simulated autopilot send to HOST and port 14550.':
    'Den simulierten Autopiloten an HOST und Port 14550 senden lassen.',
  'Raise the rates of attitude and airspeed there (the parameters SR0_EXTRA1 and SR0_EXTRA2, or the like) to 30.':
    'Dort die Raten von Lage und Fahrt (die Parameter SR0_EXTRA1 und SR0_EXTRA2 oder ähnliche) auf 30 erhöhen.',
  'Start Halfturn with: halfturn serve --udp 0.0.0.0:14550': `${serve} --udp 0.0.0.0:14550`,
  'Anything else: JSON lines of your own': 'Alles andere: eigene JSON-Zeilen',
  'send to HOST, UDP port 7181': 'an HOST senden, UDP-Port 7181',
  ['As good as what you send: heading, pitch, bank, airspeed and altitude at 30 a second or more are enough ' +
    'for most checks.']:
    'So gut wie das Gesendete: heading, pitch, bank, airspeed und altitude mit 30 je Sekunde oder mehr reichen ' +
    'für die meisten Prüfpunkte.',
  ['Let a program read the simulator and send one JSON object a datagram, its members named like Halfturn\'s ' +
    'channels and in their units, such as {"time": 12.35, "heading": 90.1, "pitch": 4.2, "bank": -0.3, ' +
    '"airspeed": 129.8, "altitude": 5003, "vertical-speed": 120, "normal-load": 1.02, "on-ground": false}']:
    'Ein Programm den Simulator lesen und je Datagramm ein JSON-Objekt senden lassen, die Felder benannt wie die ' +
    'Kanäle von Halfturn und in deren Einheiten, etwa {"time": 12.35, "heading": 90.1, "pitch": 4.2, "bank": ' +
    '-0.3, "airspeed": 129.8, "altitude": 5003, "vertical-speed": 120, "normal-load": 1.02, "on-ground": false}',
  ['Send what you have: right bank and nose up are positive, speeds are knots, heights are feet. "magnetic": ' +
    'true says that the heading is magnetic.']:
    'Senden, was da ist: Querlage rechts und Nase oben sind positiv, Geschwindigkeiten in Knoten, Höhen in Fuß. ' +
    '"magnetic": true sagt, dass der Kurs missweisend ist.',
  ['Start Halfturn with: halfturn serve. Columns or name=value pairs of your own can be read with a map ' +
    '(--map FILE).']:
    `${serve}. Eigene Spalten oder Paare Name=Wert lassen sich mit einer Zuordnung lesen (--map FILE).`,

  'X-Plane 11 and 12': 'X-Plane 11 und 12',
  'X-Plane 10 to 12, rows': 'X-Plane 10 bis 12, Zeilen',
  FlightGear: 'FlightGear',
  JSBSim: 'JSBSim',
  'Microsoft Flight Simulator': 'Microsoft Flight Simulator',
  'Bridges with XATT and XGPS': 'Brücken mit XATT und XGPS',
  'Bridges with GDL 90': 'Brücken mit GDL 90',
  'Simulated autopilots (MAVLink)': 'Simulierte Autopiloten (MAVLink)',
  'Anything else: JSON lines': 'Alles andere: JSON-Zeilen',
  'Nothing to set: Halfturn asks it.': 'Nichts einzustellen: Halfturn fragt ihn.',
  'In Settings, Data Output, enter:': 'Unter Settings, Data Output eingeben:',
  'Start it with this option; nothing to install:': 'Mit dieser Option starten; nichts zu installieren:',
  'Start it with this option; the file is below:': 'Mit dieser Option starten; die Datei steht unten:',
  'On its machine, start the bridge with:': 'Auf seinem Rechner die Brücke starten mit:',
  'In the bridge enter this address, and port 49002:': 'In der Brücke diese Adresse eingeben, und Port 49002:',
  'In the bridge enter this address, and port 4000:': 'In der Brücke diese Adresse eingeben, und Port 4000:',
  'Let it send to this address, port 14550:': 'An diese Adresse senden lassen, Port 14550:',
  'Send one JSON object a datagram to:': 'Je Datagramm ein JSON-Objekt senden an:',
};
