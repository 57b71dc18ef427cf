"""The keys of price books and labour tables: every form that there is, in one place.

A key is a path of the contract's own words from the kind of thing to its size. A form is written with the parts that
vary in braces; `keys` lists what it can come to.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import product
from typing import Final, Literal, TypeAlias, get_args

from branchwright.checks.circuits.facts import Configuration, Insulation
from branchwright.codebook.editions import Material, RacewayMethod, WiringMethod
from branchwright.jobs.installation.facts import Digging, Surface
from branchwright.quantities.conductor_sizes import SIZES
from branchwright.quantities.trade_sizes import TRADE_SIZES

Measure: TypeAlias = Literal["count", "length", "road"]
"""What a thing is counted in, and with it the units that a price may be for."""

RACEWAYS: Final[tuple[str, ...]] = get_args(RacewayMethod)
CABLES: Final[tuple[str, ...]] = tuple(name for name in get_args(WiringMethod) if name not in RACEWAYS)
RIGID: Final = ("emt", "imc", "rmc", "pvc-40", "pvc-80")
"""Raceways that come in sticks; the others come in coils."""

BREAKERS_A: Final = (
    *("10", "15", "20", "25", "30", "35", "40", "45", "50", "60", "70", "80", "90", "100", "110"),
    *("125", "150", "175", "200", "225", "250", "300", "350", "400"),
)
CHARGERS_A: Final = (16, 24, 32, 40, 48, 64, 80, 100, 125, 150, 200, 250)
DISCONNECTS_A: Final = (30, 60, 100, 200, 400)
METER_SOCKETS_A: Final = (100, 125, 200, 320, 400)
SUBMETERS_A: Final = (100, 200, 400)
PANELS_A: Final = (100, 125, 150, 200, 225, 320, 400)
DEPTHS_IN: Final = (6, 12, 18, 24, 36, 48)
"""Sizes in which things are made or work is priced, smallest first; common practice, no source."""

POLES: Final = ("2", "3")
PHASES: Final = ("single-phase", "three-phase")
CONNECTIONS: Final = ("hardwired", "receptacle")


@dataclass(frozen=True)
class KeyForm:
    """One form of key: how it is written, what its parts may be, what it means and how it is counted."""

    form: str
    meaning: str
    measure: Measure
    parts: Mapping[str, tuple[str, ...]]

    def key(self, **parts: str) -> str:
        """Return the key of one thing."""
        return self.form.format_map(parts)

    @cached_property
    def keys(self) -> tuple[str, ...]:
        """Every key of this form."""
        names = list(self.parts)
        chosen = product(*self.parts.values())
        return tuple(self.key(**dict(zip(names, values, strict=True))) for values in chosen)


def _form(form: str, meaning: str, measure: Measure = "count", **parts: tuple[object, ...]) -> KeyForm:
    written = {name: tuple(str(value) for value in values) for name, values in parts.items()}
    return KeyForm(form, meaning, measure, written)


_METALS, _INSULATIONS = get_args(Material), get_args(Insulation)
_CONFIGURATIONS = get_args(Configuration)
_SURFACES, _DIGGING = get_args(Surface), get_args(Digging)

BREAKER = _form("breaker/{rating} A/{poles}-pole", "a breaker", rating=BREAKERS_A, poles=POLES)
GROUND_FAULT_BREAKER = _form(
    "breaker/{rating} A/{poles}-pole/ground-fault",
    "a breaker with ground-fault protection for personnel",
    rating=BREAKERS_A,
    poles=POLES,
)
CONDUCTOR = _form(
    "conductor/{metal}/{insulation}/{size}",
    "one insulated conductor in a raceway, grounding conductors too",
    "length",
    metal=_METALS,
    insulation=_INSULATIONS,
    size=SIZES,
)
CABLE = _form(
    "cable/{method}/{metal}/{size}/{count}-conductor",
    "a cable by its insulated conductors, its grounding conductor included",
    "length",
    method=CABLES,
    metal=_METALS,
    size=SIZES,
    count=(2, 3, 4),
)
RACEWAY = _form(
    "raceway/{method}/{trade_size}", "a raceway", "length", method=RACEWAYS, trade_size=TRADE_SIZES
)
COUPLING = _form(
    "coupling/{method}/{trade_size}", "a coupling between sticks", method=RIGID, trade_size=TRADE_SIZES
)
CONNECTOR = _form(
    "connector/{method}/{trade_size}", "a connector at a box", method=RACEWAYS, trade_size=TRADE_SIZES
)
ELBOW = _form("elbow/{method}/{trade_size}", "an elbow", method=RACEWAYS, trade_size=TRADE_SIZES)
CONDUIT_BODY = _form(
    "conduit-body/{method}/{trade_size}", "a place to pull through", method=RACEWAYS, trade_size=TRADE_SIZES
)
STRAP = _form("strap/{method}/{trade_size}", "a strap of a raceway", method=RACEWAYS, trade_size=TRADE_SIZES)
CABLE_CONNECTOR = _form("connector/{method}", "a cable's connector at a box", method=CABLES)
CABLE_STRAP = _form("strap/{method}", "a strap or staple of a cable", method=CABLES)
BOX = _form("box/{use}", "a box with its cover", use=("receptacle", "splice"))
RECEPTACLE = _form("receptacle/{configuration}", "a receptacle", configuration=_CONFIGURATIONS)
EV_RECEPTACLE = _form(
    "receptacle/{configuration}/listed-for-ev-charging",
    "a receptacle that is listed for charging vehicles",
    configuration=_CONFIGURATIONS,
)
RECEPTACLE_COVER = _form("receptacle-cover/{place}", "a receptacle's cover", place=("indoors", "outdoors"))
DISCONNECT = _form(
    "disconnect/{rating} A/{poles}-pole",
    "a disconnecting means in its enclosure",
    rating=DISCONNECTS_A,
    poles=POLES,
)
SPLICE = _form("splice/{metal}/{size}", "a connector that splices one conductor", metal=_METALS, size=SIZES)
METER_SOCKET = _form(
    "meter-socket/{rating} A/{phases}", "a meter socket", rating=METER_SOCKETS_A, phases=PHASES
)
SUBMETER = _form("submeter/{rating} A/{phases}", "a submeter", rating=SUBMETERS_A, phases=PHASES)
PANEL = _form("panel/{rating} A/{phases}", "a panel", rating=PANELS_A, phases=PHASES)
CHARGER = _form("charger/{rating} A/{connection}", "a charger", rating=CHARGERS_A, connection=CONNECTIONS)
TRENCH = _form(
    "trench/{surface}/{by}/{depth} in",
    "a trench dug, bedded, filled and restored, by its greatest depth",
    "length",
    surface=_SURFACES,
    by=_DIGGING,
    depth=DEPTHS_IN,
)
ENERGY_MANAGEMENT = _form("energy-management", "equipment that holds the service below a setting")
CURRENT_TRANSFORMER = _form("current-transformer", "a sensor of that equipment, one for each conductor")
SETTING_LABEL = _form("label/current-setting", "a label with the adjusted current")
EMERGENCY_SHUTOFF = _form("emergency-shutoff", "an emergency shutoff of the chargers")
WALL_PATCH = _form("wall-patch", "an opening in a wall that is closed")
PERMIT = _form("permit", "the fee of a permit")
TRAVEL = _form("travel", "the way to the site", "road")

PRICE_FORMS: Final = (
    *(BREAKER, GROUND_FAULT_BREAKER, CONDUCTOR, CABLE, RACEWAY, COUPLING, CONNECTOR, ELBOW, CONDUIT_BODY),
    *(STRAP, CABLE_CONNECTOR, CABLE_STRAP, BOX, RECEPTACLE, EV_RECEPTACLE, RECEPTACLE_COVER, DISCONNECT),
    *(SPLICE, METER_SOCKET, SUBMETER, PANEL, CHARGER, TRENCH, ENERGY_MANAGEMENT, CURRENT_TRANSFORMER),
    *(SETTING_LABEL, EMERGENCY_SHUTOFF, WALL_PATCH, PERMIT, TRAVEL),
)
"""Every form of key of a price book."""

CABLE_TASK = _form(
    "cable/{method}/{size}", "running and fastening a cable", "length", method=CABLES, size=SIZES
)
RACEWAY_TASK = _form(
    "raceway/{method}/{trade_size}",
    "running and fastening a raceway with its fittings",
    "length",
    method=RACEWAYS,
    trade_size=TRADE_SIZES,
)
PULL_TASK = _form("pull/{size}", "pulling one conductor into a raceway", "length", size=SIZES)
CONNECT_TASK = _form(
    "{device}",
    "mounting and connecting one",
    device=(
        *("breaker", "disconnect", "receptacle", "conduit-body", "elbow", "box", "splice", "meter-socket"),
        *("submeter", "panel", "energy-management", "setting-label", "emergency-shutoff", "wall-patch"),
    ),
)
CHARGER_TASK = _form("charger/{connection}", "mounting and connecting a charger", connection=CONNECTIONS)
DESK_TASK = _form(
    "{work}",
    "work beside the installing itself",
    work=("permit", "inspection", "commissioning", "paperwork", "load-calculation"),
)

TASK_FORMS: Final = (
    CABLE_TASK,
    RACEWAY_TASK,
    PULL_TASK,
    CONNECT_TASK,
    CHARGER_TASK,
    TRENCH,
    DESK_TASK,
    TRAVEL,
)
"""Every form of key of a labour table's tasks."""


def measures(forms: tuple[KeyForm, ...]) -> Iterator[tuple[str, Measure]]:
    """Yield every key of some forms with what it is counted in."""
    for form in forms:
        for key in form.keys:
            yield key, form.measure


PRICE_MEASURES: Final[dict[str, Measure]] = dict(measures(PRICE_FORMS))
TASK_MEASURES: Final[dict[str, Measure]] = dict(measures(TASK_FORMS))
"""What each known key is counted in."""
