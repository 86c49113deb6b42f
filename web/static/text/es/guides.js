// How each simulator is set up, in Spanish; the keys are those of configs/simulators/guides.toml.

/** @type {Readonly<Record<string, string>>} */
export const guides = {
  'X-Plane 11 and 12: Halfturn asks (nothing to switch on)': 'X-Plane 11 y 12: Halfturn pregunta (nada que activar)',
  'Halfturn asks port 49000 of the simulator, and hears its beacon on 239.255.1.1 port 49707':
    'Halfturn pregunta al puerto 49000 del simulador, y oye su baliza en 239.255.1.1 puerto 49707',
  ['Every channel the maneuver cards need; the ball is worked out from the lateral load. 30 values a second unless ' +
    'the key rate under [subscribe] says another; never faster than the simulator draws pictures.']:
    'Todos los canales que piden las fichas de maniobra; la bola se calcula de la carga lateral. 30 valores por ' +
    'segundo salvo que la clave rate bajo [subscribe] diga otra cosa; nunca más rápido de lo que el simulador ' +
    'dibuja imágenes.',
  'Start the simulator and load a flight.': 'Arranca el simulador y carga un vuelo.',
  'Start Halfturn with: halfturn serve. It asks the simulator of its own machine by itself.':
    'Arranca Halfturn con: halfturn serve. Al simulador de su propio equipo le pregunta él solo.',
  ['When the simulator runs on another machine, enter its address on the page Set-up and press Ask it, or start ' +
    'Halfturn with: halfturn serve --subscribe ADDRESS']:
    'Si el simulador está en otro equipo, pon su dirección en la página Preparación y pulsa Preguntar, o arranca ' +
    'Halfturn con: halfturn serve --subscribe DIRECCIÓN',
  'If a firewall asks whether the simulator may receive from the network, allow it.':
    'Si un cortafuegos pregunta si el simulador puede recibir de la red, permítelo.',
  'X-Plane 10 to 12: data output rows (DATA)': 'X-Plane 10 a 12: filas de la salida de datos (DATA)',
  'sends to HOST, UDP port 7181': 'envía a HOST, puerto UDP 7181',
  ['Every channel the cards need, as 32-bit numbers, up to 60 a second; the ball is worked out from the lateral ' +
    'load. Version 9 and older number some rows differently and are not read rightly.']:
    'Todos los canales que piden las fichas, como números de 32 bits, hasta 60 por segundo; la bola se calcula de ' +
    'la carga lateral. La versión 9 y anteriores numeran algunas filas de otro modo y no se leen bien.',
  'In the simulator open Settings, Data Output.': 'En el simulador abre Settings, Data Output.',
  ['Tick the box in the column of network output for these rows: 1 times, 3 speeds, 4 Mach/vertical speed/g load, ' +
    '8 joystick, 16 angular velocities, 17 pitch/roll/headings, 18 angle of attack/side-slip, 20 ' +
    'latitude/longitude/altitude, 25 throttle command, 37 engine rpm, 38 propeller rpm, 41 N1. Without row 17 ' +
    'nothing works.']:
    'Marca en la columna de salida por red estas filas: 1 times, 3 speeds, 4 Mach/vertical speed/g load, 8 ' +
    'joystick, 16 angular velocities, 17 pitch/roll/headings, 18 angle of attack/side-slip, 20 ' +
    'latitude/longitude/altitude, 25 throttle command, 37 engine rpm, 38 propeller rpm, 41 N1. Sin la fila 17 nada ' +
    'funciona.',
  'Tick Send network data output, and enter HOST as the IP address and 7181 as the port.':
    'Marca Send network data output, y pon HOST como dirección IP y 7181 como puerto.',
  'Move the slider of the network rate to 60 packets a second.':
    'Mueve el control de frecuencia de red a 60 paquetes por segundo.',
  ['Start Halfturn with: halfturn serve. When it runs on another machine than the simulator: halfturn serve --udp ' +
    ':7181']:
    'Arranca Halfturn con: halfturn serve. Si corre en otro equipo que el simulador: halfturn serve --udp :7181',
  'FlightGear: the generic protocol': 'FlightGear: el protocolo generic',
  ["Every channel the cards need, the simulator's own clock, up to the rate of its pictures. Tried on a recorded " +
    '2020.3.']:
    'Todos los canales que piden las fichas, el reloj del propio simulador, hasta la frecuencia de sus imágenes. ' +
    'Probado con una grabación de 2020.3.',
  'Start Halfturn with: halfturn serve. It should run before the simulator does.':
    'Arranca Halfturn con: halfturn serve. Debe estar en marcha antes que el simulador.',
  ['Start the simulator with the option --native-fdm=socket,out,60,HOST,7181,udp: its own protocol, which needs no ' +
    'file. Throttle and clock are missing there.']:
    'Arranca el simulador con la opción --native-fdm=socket,out,60,HOST,7181,udp: su propio protocolo, que no ' +
    'necesita archivo. Ahí faltan el mando de gases y el reloj.',
  ['For every channel, download halfturn.xml from the page Set-up (or write it out with halfturn simulators copy ' +
    'DIR) and put it into a folder Protocol of a folder of your choice, here DIR.']:
    'Para tener todos los canales, descarga halfturn.xml de la página Preparación (o cópialo con halfturn ' +
    'simulators copy DIR) y ponlo en una carpeta Protocol dentro de una carpeta a tu elección, aquí DIR.',
  ['Then start the simulator with these two options in place of that one, DIR written out in full: --data=DIR ' +
    '--generic=socket,out,60,HOST,7181,udp,halfturn']:
    'Luego arranca el simulador con estas dos opciones en lugar de aquella, con DIR escrito entero: --data=DIR ' +
    '--generic=socket,out,60,HOST,7181,udp,halfturn',
  'With the launcher, put the options into its box Additional Settings instead.':
    'Con el lanzador, pon las opciones en su casilla Additional Settings.',
  ['To add or take out values, use halfturn-pairs in place of halfturn: name=value pairs can be read whatever is ' +
    'among them. halfturn-binary is shorter on the wire.']:
    'Para añadir o quitar valores, usa halfturn-pairs en vez de halfturn: los pares nombre=valor se leen haya lo ' +
    'que haya entre ellos. halfturn-binary es más corto en la línea.',
  ["The folder Protocol must lie in the folder that --data names: one among the user's own settings is not " +
    'searched, and the simulator then sends nothing and says nothing.']:
    'La carpeta Protocol debe estar en la carpeta que nombra --data: en una entre los ajustes del usuario no se ' +
    'busca, y entonces el simulador no envía nada ni dice nada.',
  'JSBSim: the output socket': 'JSBSim: el socket de salida',
  'sends to 127.0.0.1, UDP port 7181, as the file says': 'envía a 127.0.0.1, puerto UDP 7181, como dice el archivo',
  "Every channel the cards need, the simulator's own clock, 60 lines a second. Tried on recorded flights.":
    'Todos los canales que piden las fichas, el reloj del propio simulador, 60 líneas por segundo. Probado con ' +
    'vuelos grabados.',
  'Download halfturn.xml from the page Set-up, or write it out with: halfturn simulators copy DIR':
    'Descarga halfturn.xml de la página Preparación, o cópialo con: halfturn simulators copy DIR',
  ['In halfturn.xml change the name (the address) and the port of <output> when Halfturn runs elsewhere, and the ' +
    'line with engine-rpm to propulsion/engine/propeller-rpm or propulsion/engine/n1 by the engine.']:
    'En halfturn.xml cambia name (la dirección) y port de <output> si Halfturn corre en otro sitio, y la línea con ' +
    'engine-rpm por propulsion/engine/propeller-rpm o propulsion/engine/n1 según el motor.',
  ['Start Halfturn first, with: halfturn serve. The line of labels is sent once, when the simulator opens the ' +
    'socket.']:
    'Arranca primero Halfturn, con: halfturn serve. La línea de nombres se envía una vez, cuando el simulador abre ' +
    'el socket.',
  'Start the simulator in the folder of that file, with the option: --logdirectivefile=halfturn.xml':
    'Arranca el simulador en la carpeta de ese archivo, con la opción: --logdirectivefile=halfturn.xml',
  'Microsoft Flight Simulator and others with a local client interface (SimConnect): the bridge':
    'Microsoft Flight Simulator y otros con interfaz local de cliente (SimConnect): el puente',
  'the bridge sends to 127.0.0.1, UDP port 7181, or where you tell it':
    'el puente envía a 127.0.0.1, puerto UDP 7181, o adonde le digas',
  ['Attitude, speeds, altitude, height, load factor, ball, power and controls, up to 60 a second; rates are worked ' +
    'out. The bridge was tested against a stand-in for the client interface, NOT against the simulator itself: ' +
    'compare what halfturn probe shows with the instruments before you trust it, above all the sign of bank, pitch ' +
    'and ball.']:
    'Actitud, velocidades, altitud, altura, factor de carga, bola, potencia y mandos, hasta 60 por segundo; las ' +
    'velocidades angulares se calculan. El puente se probó con un sustituto de la interfaz, NO con el simulador ' +
    'mismo: compara lo que muestra halfturn probe con los instrumentos antes de fiarte, sobre todo el signo de ' +
    'alabeo, cabeceo y bola.',
  "On the simulator's machine install Node.js 20.17 or later.":
    'En el equipo del simulador instala Node.js 20.17 o posterior.',
  ['Download bridge.mjs from the page Set-up into a folder of its own, or write it out with: halfturn simulators ' +
    'copy DIR']:
    'Descarga bridge.mjs de la página Preparación en una carpeta propia, o cópialo con: halfturn simulators copy DIR',
  'In that folder run, once: npm install node-simconnect@4.2.0':
    'En esa carpeta ejecuta, una vez: npm install node-simconnect@4.2.0',
  'Start Halfturn with: halfturn serve. When it runs on another machine: halfturn serve --udp :7181':
    'Arranca Halfturn con: halfturn serve. Si corre en otro equipo: halfturn serve --udp :7181',
  'In that folder run: node bridge.mjs --check. It says what is missing, and what to do about it.':
    'En esa carpeta ejecuta: node bridge.mjs --check. Dice qué falta y cómo arreglarlo.',
  'Then run: node bridge.mjs. When Halfturn runs on another machine: node bridge.mjs HOST:7181':
    'Luego ejecuta: node bridge.mjs. Si Halfturn corre en otro equipo: node bridge.mjs HOST:7181',
  'Any simulator with a bridge that speaks XATT and XGPS (tablet broadcast)':
    'Cualquier simulador con un puente que hable XATT y XGPS (difusión a tabletas)',
  'such bridges send to UDP port 49002, often to everyone on the network':
    'esos puentes envían al puerto UDP 49002, a menudo a toda la red',
  ['Attitude 4 to 10 times a second, position once a second, no airspeed, no power, no load factor: bank, nose and ' +
    'turn are coached coarsely, and what needs the rest reads not measured.']:
    'Actitud de 4 a 10 veces por segundo, posición una vez por segundo, sin velocidad, potencia ni factor de carga: ' +
    'alabeo, morro y viraje se instruyen a grandes rasgos, y lo que pide el resto sale como no medido.',
  'In the bridge switch on attitude (XATT) beside position (XGPS), at its highest rate.':
    'En el puente activa la actitud (XATT) además de la posición (XGPS), a su frecuencia máxima.',
  'If it lets you enter an address, give HOST and 49002.': 'Si te deja poner una dirección, da HOST y 49002.',
  'Start Halfturn with: halfturn serve --udp 0.0.0.0:49002': 'Arranca Halfturn con: halfturn serve --udp 0.0.0.0:49002',
  ['For an airspeed estimated from ground speed, wrong by the wind, put the line ground-speed-as-airspeed = true ' +
    'into the configuration file and add --config FILE.']:
    'Para una velocidad estimada de la velocidad sobre el terreno, errónea en lo que sople el viento, pon la línea ' +
    'ground-speed-as-airspeed = true en el archivo de configuración y añade --config FILE.',
  'When probe says that bank and turn disagree, put the line bank-sign = "reversed" there too.':
    'Cuando probe diga que alabeo y viraje se contradicen, pon ahí también la línea bank-sign = "reversed".',
  'Any simulator with a bridge that speaks GDL 90': 'Cualquier simulador con un puente que hable GDL 90',
  'such bridges send to UDP port 4000': 'esos puentes envían al puerto UDP 4000',
  ['Attitude about 5 to 10 times a second, where the bridge sends it (message 0x65 or 0x4C); position and altitude ' +
    'once a second in steps of 25 ft; airspeed only where message 0x65 carries it. What is missing reads not ' +
    'measured.']:
    'Actitud de unas 5 a 10 veces por segundo, si el puente la envía (mensaje 0x65 o 0x4C); posición y altitud una ' +
    'vez por segundo en pasos de 25 ft; velocidad solo si el mensaje 0x65 la lleva. Lo que falta sale como no ' +
    'medido.',
  ['In the bridge switch on attitude (AHRS) beside the ownship report, and enter HOST as the address and 4000 as ' +
    'the port.']:
    'En el puente activa la actitud (AHRS) además del informe propio (ownship report), y pon HOST como dirección y ' +
    '4000 como puerto.',
  'Start Halfturn with: halfturn serve --udp 0.0.0.0:4000': 'Arranca Halfturn con: halfturn serve --udp 0.0.0.0:4000',
  'When no attitude comes, nothing can be coached: look for another bridge, or use the one above.':
    'Cuando no llega actitud no se puede instruir nada: busca otro puente, o usa el de arriba.',
  ['When probe says that bank and turn disagree, put the line bank-sign = "reversed" into the configuration file ' +
    'and add --config FILE.']:
    'Cuando probe diga que alabeo y viraje se contradicen, pon la línea bank-sign = "reversed" en el archivo de ' +
    'configuración y añade --config FILE.',
  'Simulated autopilots that speak MAVLink': 'Autopilotos simulados que hablan MAVLink',
  'sends to HOST, UDP port 14550 by custom, or any you choose':
    'envía a HOST, puerto UDP 14550 por costumbre, o el que elijas',
  ['Attitude, speeds and altitude at the rates the autopilot sends them; no height above ground. Ask for ATTITUDE ' +
    'and VFR_HUD at 20 a second or more.']:
    'Actitud, velocidades y altitud a las frecuencias con que las envía el autopiloto; sin altura sobre el terreno. ' +
    'Pide ATTITUDE y VFR_HUD a 20 por segundo o más.',
  'Let the simulated autopilot send to HOST and port 14550.':
    'Haz que el autopiloto simulado envíe a HOST y puerto 14550.',
  'Raise the rates of attitude and airspeed there (the parameters SR0_EXTRA1 and SR0_EXTRA2, or the like) to 30.':
    'Sube ahí a 30 las frecuencias de actitud y velocidad (los parámetros SR0_EXTRA1 y SR0_EXTRA2, o similares).',
  'Start Halfturn with: halfturn serve --udp 0.0.0.0:14550': 'Arranca Halfturn con: halfturn serve --udp 0.0.0.0:14550',
  'Anything else: JSON lines of your own': 'Cualquier otro: líneas JSON propias',
  'send to HOST, UDP port 7181': 'envía a HOST, puerto UDP 7181',
  ['As good as what you send: heading, pitch, bank, airspeed and altitude at 30 a second or more are enough for ' +
    'most checks.']:
    'Tan bueno como lo que envíes: heading, pitch, bank, airspeed y altitude a 30 por segundo o más bastan para la ' +
    'mayoría de los criterios.',
  ["Let a program read the simulator and send one JSON object a datagram, its members named like Halfturn's " +
    'channels and in their units, such as {"time": 12.35, "heading": 90.1, "pitch": 4.2, "bank": -0.3, "airspeed": ' +
    '129.8, "altitude": 5003, "vertical-speed": 120, "normal-load": 1.02, "on-ground": false}']:
    'Haz que un programa lea el simulador y envíe un objeto JSON por datagrama, con sus miembros nombrados como los ' +
    'canales de Halfturn y en sus unidades, como {"time": 12.35, "heading": 90.1, "pitch": 4.2, "bank": -0.3, ' +
    '"airspeed": 129.8, "altitude": 5003, "vertical-speed": 120, "normal-load": 1.02, "on-ground": false}',
  ['Send what you have: right bank and nose up are positive, speeds are knots, heights are feet. "magnetic": true ' +
    'says that the heading is magnetic.']:
    'Envía lo que tengas: alabeo a la derecha y morro arriba son positivos, las velocidades son nudos, las alturas ' +
    'son pies. "magnetic": true dice que el rumbo es magnético.',
  ['Start Halfturn with: halfturn serve. Columns or name=value pairs of your own can be read with a map (--map ' +
    'FILE).']:
    'Arranca Halfturn con: halfturn serve. Las columnas o pares nombre=valor propios se pueden leer con un mapa ' +
    '(--map FILE).',

  'X-Plane 11 and 12': 'X-Plane 11 y 12',
  'X-Plane 10 to 12, rows': 'X-Plane 10 a 12, filas',
  FlightGear: 'FlightGear',
  JSBSim: 'JSBSim',
  'Microsoft Flight Simulator': 'Microsoft Flight Simulator',
  'Bridges with XATT and XGPS': 'Puentes con XATT y XGPS',
  'Bridges with GDL 90': 'Puentes con GDL 90',
  'Simulated autopilots (MAVLink)': 'Pilotos automáticos simulados (MAVLink)',
  'Anything else: JSON lines': 'Cualquier otro: líneas JSON',
  'Nothing to set: Halfturn asks it.': 'Nada que ajustar: Halfturn le pregunta.',
  'In Settings, Data Output, enter:': 'En Settings, Data Output, escribe:',
  'Start it with this option; nothing to install:': 'Arráncalo con esta opción; nada que instalar:',
  'Start it with this option; the file is below:': 'Arráncalo con esta opción; el archivo está abajo:',
  'On its machine, start the bridge with:': 'En su equipo, arranca el puente con:',
  'In the bridge enter this address, and port 49002:': 'En el puente pon esta dirección, y el puerto 49002:',
  'In the bridge enter this address, and port 4000:': 'En el puente pon esta dirección, y el puerto 4000:',
  'Let it send to this address, port 14550:': 'Haz que envíe a esta dirección, puerto 14550:',
  'Send one JSON object a datagram to:': 'Envía un objeto JSON por datagrama a:',
};
