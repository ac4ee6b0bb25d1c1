# Las palabras de la interfaz en español, para páginas y hojas. Trato de usted, español neutro de América.
# Los mismos identificadores que en inglés, en el mismo orden; una prueba los compara.


## Componentes del entrenamiento

component-posture = Postura
component-balance = Equilibrio
component-strength = Fuerza
component-power = Potencia
component-posture-about = Manténgase erguido y con la espalda fuerte.
component-balance-about = Manténgase firme sobre sus pies.
component-strength-about = Fortalezca las piernas, las caderas y los brazos.
component-power-about = Muévase con un poco de rapidez y apoye con un golpe suave.


## Posiciones

position-lying = Acostado boca arriba
position-side-lying = Acostado de lado
position-prone = Acostado boca abajo
position-kneeling = De rodillas
position-hands-and-knees = Apoyado en manos y rodillas
position-seated = Sentado
position-standing = De pie


## De qué se sostienen las manos

support-counter = la encimera de la cocina
support-wall = una pared
support-chair = una silla firme
support-doorway = el marco de una puerta
support-rail = un pasamanos
support-partner = una persona a su lado
support-none = sin nada de qué sostenerse


## Lo que un movimiento exige del cuerpo

demand-floor-transfer = bajar al suelo y volver a levantarse
demand-lying-flat = acostarse boca arriba sin almohada
demand-lying-prone = acostarse boca abajo
demand-kneeling = ponerse de rodillas
demand-end-range-flexion = doblar mucho la espalda hacia adelante
demand-loaded-flexion = doblar la espalda hacia adelante con peso
demand-end-range-twist = girar la espalda hasta el final
demand-end-range-extension = doblarse hacia atrás hasta el final
demand-overhead-reach = estirar los brazos por encima de la cabeza
demand-overhead-load = levantar peso por encima de la cabeza
demand-wrist-load = apoyarse en las manos
demand-deep-knee-bend = doblar mucho las rodillas
demand-deep-hip-bend = doblar mucho las caderas
demand-crossing-midline = cruzar las piernas
demand-single-leg-stance = pararse en una sola pierna
demand-narrow-stance = pararse con los pies juntos o en línea
demand-eyes-closed = cerrar los ojos
demand-head-turn = girar la cabeza
demand-head-below-heart = bajar la cabeza más que el corazón
demand-quick-rise = levantarse con rapidez
demand-long-hold = quedarse quieto mucho tiempo
demand-breath-strain = hacer fuerza o aguantar la respiración
demand-heavy-load = levantar mucho peso
demand-impact-low = un golpe suave, como al dejar caer los talones
demand-impact-moderate = un golpe más firme, como un pisotón o un salto pequeño
demand-impact-high = un golpe fuerte, como al saltar


## Precauciones. Cada una se lee bien después de "Si tiene".

precaution-low-bone-density = huesos débiles (baja densidad ósea)
precaution-spine-fracture = una fractura en un hueso de la columna
precaution-rounded-upper-back = la parte alta de la espalda encorvada
precaution-high-blood-pressure = presión alta
precaution-dizzy-on-standing = mareo al ponerse de pie
precaution-unsteady = poco equilibrio
precaution-no-floor = dificultad para bajar al suelo o levantarse de él
precaution-hip-replacement = un reemplazo de cadera
precaution-knee-replacement = un reemplazo de rodilla
precaution-knee-arthritis = rodillas gastadas o doloridas (artrosis)
precaution-wrist-fracture = una muñeca rota o dolorida
precaution-shoulder-pain = dolor de hombro
precaution-pelvic-floor-symptoms = escapes de orina o peso en la parte baja de la pelvis
precaution-dizziness = mareos
precaution-glaucoma = glaucoma (presión alta en el ojo)
precaution-spinal-stenosis = el canal de la columna estrecho (estenosis)
precaution-foot-numbness = los pies dormidos o con poca sensibilidad


## Avisos: con qué rigor se toma cada uno, y para quién es

level-stop = No haga este ejercicio.
level-adapt = Hágalo así.
level-ask = Pregunte antes a su profesional de salud.
caution-everyone = Para todas las personas
caution-for = Si tiene { $who }


## Secciones de un ejercicio. Los títulos de las entradas llevan estos nombres.

section-set-up = Prepárese
section-move = Muévase
section-finish = Termine
section-feel = Qué debe sentir
section-watch-for = Fíjese


## Rótulos de un ejercicio

make-it-easier = Más fácil
make-it-harder = Más difícil
another-safe-way = Otra forma segura
take-care = Tenga cuidado
how-much-how-often = Cuánto y cada cuánto
what-you-need = Qué necesita
need-nothing = Nada más que usted
position-label = Cómo se coloca
hold-on-to = Sosténgase de
focus-label = Esta semana
exercise-of = Ejercicio { $number } de { $count }
try-exercise = Pruebe este: { $title }
harder-only-when-ready = Solo cuando este le resulte fácil y seguro.
easier-first = Empiece aquí si tiene dudas.
ways-none = Su profesional de salud puede mostrarle una.
figure-of = Imagen: { $title }
reviewed-line = Revisado por { $name } el { $date }.
reviewed-not-yet = Todavía no lo ha revisado un profesional de salud.
evidence-label = En qué se basa


## Dosis: números

dose-range = { $low } a { $high }
dose-seconds =
    { $count ->
        [one] { $amount } segundo
       *[other] { $amount } segundos
    }
dose-minutes =
    { $count ->
        [one] { $amount } minuto
       *[other] { $amount } minutos
    }
dose-minutes-and-seconds = { $minutes } y { $seconds }

## Dosis: las palabras junto a las cifras grandes. $count es el número mayor.

dose-unit-reps =
    { $count ->
        [one] vez
       *[other] veces
    }
dose-unit-reps-each =
    { $count ->
        [one] vez de cada lado
       *[other] veces de cada lado
    }
dose-unit-reps-alternating =
    { $count ->
        [one] vez, cambiando de lado
       *[other] veces en total, cambiando de lado
    }
dose-unit-sets =
    { $count ->
        [one] serie
       *[other] series
    }
dose-unit-days =
    { $count ->
        [one] día por semana
       *[other] días por semana
    }
dose-unit-hold-seconds =
    { $count ->
        [one] segundo cada vez, sin moverse
       *[other] segundos cada vez, sin moverse
    }
dose-unit-hold-minutes =
    { $count ->
        [one] minuto cada vez, sin moverse
       *[other] minutos cada vez, sin moverse
    }
dose-unit-seconds =
    { $count ->
        [one] segundo en total
       *[other] segundos en total
    }
dose-unit-minutes =
    { $count ->
        [one] minuto en total
       *[other] minutos en total
    }

## Dosis: las frases de una línea, como en "10 veces, 2 series, 3 a 4 días por semana"

dose-reps =
    { $count ->
        [one] { $amount } vez
       *[other] { $amount } veces
    }
dose-reps-each =
    { $count ->
        [one] { $amount } vez de cada lado
       *[other] { $amount } veces de cada lado
    }
dose-reps-alternating =
    { $count ->
        [one] { $amount } vez, cambiando de lado
       *[other] { $amount } veces en total, cambiando de lado
    }
dose-sets =
    { $count ->
        [one] { $amount } serie
       *[other] { $amount } series
    }
dose-days =
    { $count ->
        [one] { $amount } día por semana
       *[other] { $amount } días por semana
    }
dose-days-every = todos los días
dose-hold = mantenga { $time }
dose-hold-each = mantenga { $time } de cada lado
dose-hold-alternating = mantenga { $time }, cambiando de lado
dose-time = { $time } en total
dose-time-each = { $time } de cada lado
dose-time-alternating = { $time }, cambiando de lado
dose-separator = { ", " }

## Dosis: las líneas pequeñas debajo de las cifras

dose-label-sides = Lados
dose-label-hold = Mantenga
dose-label-rest = Descanso
dose-label-pace = Ritmo
dose-label-days = Cada cuánto
dose-label-rest-days = Días libres
dose-label-effort = Esfuerzo
dose-sides-both-together = Los dos lados a la vez
dose-sides-each = Primero un lado y luego el otro
dose-sides-alternating = Cambie de lado cada vez
dose-rest-between-sets = { $time } entre series
dose-rest-between-reps = { $time } entre una vez y otra
dose-pace = { $time } cada vez
dose-rest-days =
    { $count ->
        [one] { $amount } día de descanso en medio
       *[other] { $amount } días de descanso en medio
    }
dose-effort = { $amount } de 10
dose-effort-scale = 0 es reposo. 10 es todo lo que usted puede.
dose-changed-this-week = Cambia esta semana.


## Seguridad: señales para parar y pedir ayuda

safety-title = Su seguridad
safety-signs-title = Señales para parar y pedir ayuda
safety-before-title = Antes de empezar
safety-stop-now = Pare enseguida si algo no está bien. No espere a ver si se le pasa.
safety-short = Pare enseguida si le duele el pecho, si siente que se desmaya o si le falta el aire para hablar.
safety-all-signs = Vea todas las señales para parar
safety-page-lead = Lea esta página antes del primer ejercicio. Guárdela donde pueda encontrarla.

safety-emergency-title = Pare y pida ayuda de emergencia
safety-emergency-call = Llame al { $number }.
safety-emergency-call-any = Llame al número de emergencias.
safety-emergency-chest = Dolor o presión en el pecho, el cuello, el hombro o el brazo que no se quita al descansar
safety-emergency-stroke = Se le cae un lado de la cara, se le debilita un brazo o no le salen bien las palabras
safety-emergency-faint = Se desmaya
safety-emergency-legs = Debilidad o adormecimiento nuevo en las piernas, o adormecimiento entre las piernas
safety-emergency-bladder = De repente no puede controlar la orina o el intestino
safety-emergency-breath = Le falta el aire para hablar y no mejora al descansar
safety-emergency-fall = Se cae y tiene mucho dolor, o no puede pararse o caminar

safety-stop-title = Pare, siéntese y llame a su profesional de salud
safety-stop-dizzy = Siente mareo, náuseas o la cabeza ligera
safety-stop-sweat = Le viene un sudor frío
safety-stop-breath = Le falta el aire para hablar
safety-stop-heart = El corazón se acelera, se salta latidos o aletea
safety-stop-sharp = Tiene un calambre, o un dolor agudo en una articulación, un pie o una pierna
safety-stop-back = Tiene un dolor de espalda nuevo, o un dolor de espalda que empeora. Puede ser una fractura en un hueso de la columna.
safety-stop-fall = Se cae, aunque sea una caída pequeña

safety-tell-title = Cuéntelo en su próxima llamada o visita
safety-tell-height = Ha perdido más de 3 centímetros de estatura
safety-tell-stoop = La espalda se le ha empezado a encorvar
safety-tell-sore = Después de 3 días todavía está dolorido. Haga menos hasta que lo hayan hablado.
safety-tell-new = Tiene una enfermedad nueva, una medicina nueva o una operación

## Seguridad: consejos generales

safety-ask-title = Pregunte antes
safety-ask-new = Hable con su profesional de salud antes de empezar si no suele hacer ejercicio y tiene huesos débiles.
safety-ask-fracture = Si ha tenido una fractura en un hueso de la columna, vea a un fisioterapeuta antes de empezar.
safety-ask-illness = Hable antes con su médico si tiene una enfermedad del corazón o diabetes, si fuma, o si tiene un síntoma nuevo que nadie ha revisado.
safety-ask-doctor = Vea a su médico antes de hacer ejercicio si tiene dolor de pecho, latidos irregulares, mucha falta de aire, pérdida de peso sin razón, fiebre o una infección, un coágulo de sangre, una hernia que duele, una llaga en el pie que no sana, una articulación hinchada, sangrado u operación en un ojo, un vaso sanguíneo grande ensanchado, una válvula del corazón estrecha, dolor después de una caída o una operación reciente de cadera.

safety-ready-title = Prepárese
safety-ready-support = Póngase junto a algo que no se mueva, como la encimera de la cocina.
safety-ready-shoes = Use zapatos que le queden bien y no resbalen.
safety-ready-floor = Quite del suelo alfombras, cables y mascotas.
safety-ready-phone = Tenga un teléfono al alcance de la mano.
safety-ready-water = Tenga cerca una silla para descansar.

safety-during-title = Mientras se mueve
safety-during-start = Empiece con suavidad. Aumente poco a poco, a lo largo de las semanas.
safety-during-breathe = Suelte el aire al hacer el esfuerzo y tómelo al volver. Nunca aguante la respiración.
safety-during-bend = Dóblese por las caderas con la espalda larga. No encorve ni gire la espalda.
safety-during-rest = Descanse todo lo que necesite.

safety-normal-title = Qué es normal
safety-normal-sore = Es normal tener los músculos algo doloridos unos días y sentir un poco de cansancio.
safety-not-normal = No es normal el agotamiento, el dolor en las articulaciones ni el dolor agudo. Pare y pregunte.

## Seguridad: la advertencia

safety-disclaimer = Estas páginas dan consejos generales. No reemplazan el consejo de su propio profesional de salud. Si no coinciden, haga lo que le diga su profesional.


## Marco de la página

skip-to-content = Ir al contenido principal
nav-label = Principal
nav-home = Inicio
nav-exercises = Ejercicios
nav-safety = Seguridad
nav-evidence = Evidencia
breadcrumb-label = Usted está aquí
footer-prepared = Preparado por
footer-contact = ¿Tiene preguntas? Comuníquese.
footer-phone = Teléfono
footer-email = Correo
footer-updated = Esta página se revisó por última vez el { $date }.
page-title = { $title } - { $site }
draft-mark = Borrador
draft-about = Esto es un borrador. No está aprobado para pacientes. No haga ejercicio con él.
print-label = En papel
calendar-link = Agregue las semanas a su calendario
feed-link = Siga las semanas en un lector de noticias
handout-link =
    { $pages ->
        [one] Imprima esto en letra grande: { $size } puntos, papel { $paper }, { $pages } página (PDF)
       *[other] Imprima esto en letra grande: { $size } puntos, papel { $paper }, { $pages } páginas (PDF)
    }
handout-link-when-asked = Imprima esto en letra grande: { $size } puntos, papel { $paper } (PDF)
paper-a4 = A4
paper-letter = carta
new-window-none = Se abre en otro sitio web


## Inicio

home-this-week = Esta semana
home-first-week = La primera semana
home-open-week = Abra la semana { $number }
home-all-series = Todos los programas
home-weeks =
    { $count ->
        [one] { $count } semana
       *[other] { $count } semanas
    }
home-starts = Empieza el { $date }
home-new-title = ¿Es su primera vez?
home-new-text = Lea primero la página de seguridad. Toma 2 minutos.
home-safety-link = Vaya a la página de seguridad
home-library-link = Vea todos los ejercicios


## Programa

series-label = Programa
series-audience = Para quién es
series-starts = Empieza el { $date }
series-weeks-title = Semana por semana
coverage-caption = Ejercicios de cada semana, por tipo
coverage-how-to-read = Cada fila es una semana. Cada columna es un tipo de ejercicio. Una casilla con línea punteada no tiene ninguno.
coverage-week = Semana
coverage-gap = Ninguno
coverage-region = Tabla de las semanas
serves-title = Escrito con cuidado para personas que tienen


## Semana

week-number = Semana { $number }
week-title = Semana { $number }: { $title }
week-of = Semana del { $date }
week-glance-title = La semana de un vistazo
week-exercises-title = Los ejercicios
week-previous = Semana anterior: { $title }
week-next = Semana siguiente: { $title }
week-nav-label = Otras semanas
week-back-to-series = Todas las semanas de { $series }
question-title = La pregunta de la semana
video-title = El video
video-watch = Vea el video ({ $length })
# $host is where a video elsewhere is, such as "video.example".
video-elsewhere = Está en { $host } y se abre allí. No se carga nada de allí antes de que usted lo pida.
video-play = Ponga el video ({ $length })
video-here = Se ve en esta página. Empieza solo cuando usted lo pide.
video-captions = El video tiene subtítulos.
# $language is the name of a language.
video-captions-label = Subtítulos: { $language }
video-chapters-title = Partes del video
video-chapter-welcome = Bienvenida
video-at = En el video, en el minuto { $time }


## Lo que se dice en un video

transcript-title = Lo que se dice en el video
transcript-open = Léalo aquí
language-en = inglés
language-es = español

## Avisos y calendarios

feed-exercise = { $title }: { $dose }
# $exercises is a list such as "wall slide and heel drop".
calendar-practice = Práctica: { $exercises }
series-calendar = Ponga este programa en su calendario
series-feed = Siga este programa en un lector de noticias
preview-alt = { $week }, { $site }

## Página de un ejercicio

ladder-title = Su lugar en la escalera
ladder-about = Cada peldaño es un poco más difícil que el anterior. El más fácil va primero.
ladder-here = Usted está aquí
ladder-rung = Peldaño { $number } de { $count }
ladder-drawing = La escalera de { $title }
ladder-drawing-about = Una escalera con { $count } peldaños, el más fácil arriba. { $title } está en el peldaño { $number }.
weeks-title = Semanas que lo usan
weeks-none = Ninguna semana lo usa todavía.
exercise-back-to-library = Todos los ejercicios


## Biblioteca

library-title = Ejercicios
library-lead = Todos los ejercicios en una lista. Cada uno tiene una forma más fácil y sus avisos.
library-filter-title = Busque un ejercicio
library-search = Palabras que buscar
library-component = Tipo de ejercicio
library-position = Posición
library-support = Algo de qué sostenerse
library-equipment = Qué necesita
library-precaution = Con consejos para
library-precaution-help = Muestra los ejercicios que tienen una versión o un consejo escrito para ello. De todos modos, pregunte a su profesional de salud.
library-any = Todos
library-clear = Ver todos otra vez
library-count-none = No se encontró ningún ejercicio. Quite una de las opciones.
library-count-one = Se encontró 1 ejercicio.
library-count-many = Se encontraron { "{n}" } ejercicios.
library-results = Ejercicios encontrados


## Una hoja para una persona: qué se dejó fuera y por qué. $demand se lee como en "incluye ponerse de rodillas".

left-out-title = Lo que no va en su hoja
left-out-stop = { $title }: no haga este ejercicio si tiene { $precaution }.
left-out-avoid = { $title }: incluye { $demand }. No es para usted si tiene { $precaution }.
left-out-modify = { $title }: incluye { $demand }. Si tiene { $precaution }, pida a su profesional de salud una forma más segura.
left-out-ask = { $title }: incluye { $demand }. Si tiene { $precaution }, pregunte a su profesional de salud antes de hacerlo.
left-out-unread = { $title }: no pudimos comprobar que sea seguro para usted.


## Evidencia

evidence-title = Evidencia
evidence-lead = Estos son los estudios y las guías que citan los ejercicios.
evidence-used-in = Se usa en
evidence-read = Léalo en { $place }
evidence-and-others = y otros
evidence-cite = Fuente: { $source }


## Página no encontrada

not-found-title = No encontramos esta página
not-found-text = Tal vez la página se movió, o la dirección tiene un error.
not-found-help = Pruebe una de estas:


## Listas de palabras

list-two = { $first } y { $last }
list-many = { $first } y { $last }
list-or-two = { $first } o { $last }
list-or-many = { $first } o { $last }
list-separator = { ", " }


## Fechas

date-long = { $weekday } { $day } de { $month } de { $year }
date-day = { $day } de { $month } de { $year }
month-1 = enero
month-2 = febrero
month-3 = marzo
month-4 = abril
month-5 = mayo
month-6 = junio
month-7 = julio
month-8 = agosto
month-9 = septiembre
month-10 = octubre
month-11 = noviembre
month-12 = diciembre
weekday-1 = lunes
weekday-2 = martes
weekday-3 = miércoles
weekday-4 = jueves
weekday-5 = viernes
weekday-6 = sábado
weekday-7 = domingo
weekday-short-1 = lun
weekday-short-2 = mar
weekday-short-3 = mié
weekday-short-4 = jue
weekday-short-5 = vie
weekday-short-6 = sáb
weekday-short-7 = dom


## Tables in prose

table-label = tabla { $number }


## Printed sheets

sheet-exercises-title = Sus ejercicios
sheet-page = Página { $number } de { $count }
sheet-needs-title = Lo que necesita esta semana
sheet-for = Para { $name }
sheet-days = Sus días: { $days }.
sheet-your-way = Su manera de hacer: { $title }
sheet-in-place-of = En lugar de: { $title }
sheet-how = Cómo hacerlo
sheet-online-title = En una pantalla
sheet-online-week = Apunte la cámara de un teléfono a este cuadro, o escriba la dirección, para ver esta semana con su video.
sheet-online-exercise = Apunte la cámara de un teléfono a este cuadro, o escriba la dirección, para ver este ejercicio.
sheet-code = Código cuadrado para teléfonos. Lleva a { $address }
sheet-about-title = Acerca de esta hoja
sheet-prepared = Preparada por { $name }
sheet-made = Hecha el { $date }
sheet-contact-title = ¿Preguntas?
sheet-contact = Póngase en contacto antes de seguir.
sheet-note = Nota { $number }
log-title = Su registro de práctica
log-how = Marque una casilla por cada serie que haga. No importa si deja una vacía.
log-how-days = Elija los días que le convengan. Escríbalos junto a Día 1, Día 2 y los demás.
log-day = Día { $number }
log-days = Día
log-week = Semana { $number }
log-left = Izquierda
log-right = Derecha


## Cue sheet

cue-title = Hoja de apuntes
cue-props = Tenga a mano
cue-faults = Esté atenta a
cue-easier = Más fácil
cue-harder = Más difícil
cue-question = La pregunta
cue-next = La próxima semana
