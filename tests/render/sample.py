"""A document that holds every block, about a home that does not exist."""

from __future__ import annotations

from datetime import date

from hearthbook.documents import blocks as b
from hearthbook.documents import drawings
from hearthbook.documents.charts import Axis, Chart, Mark, Series, Zone
from hearthbook.documents.figures import Basis, KeyFigure, assumed, calculated, given
from hearthbook.documents.inline import escaped

_OUTSIDE = given(
    "climate.design", "Coldest design day", -3.2, "°C", place="property.climate.design"
)
_ROOM = assumed(
    "rooms.kitchen.temperature",
    "Room temperature, kitchen",
    20.0,
    "°C",
    source="common practice, no source",
    note="not asked; a usual value for a kitchen",
)
_LOSS_PER_KELVIN = given("rooms.kitchen.loss", "Loss per kelvin", 26.7, "W/K", place="rooms[0]")
DIFFERENCE = calculated(
    "rooms.kitchen.difference",
    "Inside less outside",
    23.2,
    "K",
    formula="θ_int − θ_e",
    inputs=(_ROOM, _OUTSIDE),
    source="derived",
)
HEAT_LOSS = calculated(
    "heat_loss.rooms.kitchen.total",
    "Heat loss, kitchen",
    619.4,
    "W",
    formula="Φ = H · (θ_int − θ_e)",
    inputs=(_LOSS_PER_KELVIN, DIFFERENCE),
    source="EN 12831-1:2017, 6.3",
    uncertainty=60.0,
)
PRESSURE = KeyFigure(
    "commissioning.cold_pressure",
    "Pressure, cold",
    1.2e5,
    "bar",
    Basis.MEASURED,
    HEAT_LOSS.working,
    uncertainty=5e3,
)

CURVE = Chart(
    kind="line",
    title="Your heating curve",
    sentence="On the coldest day, −3 °C, the water leaves at 45 °C; at 15 °C outside it is 28 °C.",
    x_axis=Axis("Outside", "°C"),
    y_axis=Axis("Water to the radiators", "°C"),
    x=tuple(float(x) for x in range(-6, 19)),
    series=(
        Series("As set", tuple(45.0 - 0.95 * (x + 3) for x in range(-6, 19))),
        Series("What the rooms need", tuple(44.0 - 0.95 * (x + 3) for x in range(-6, 19))),
    ),
    zones=(
        Zone(25.0, 32.0, "barely warm to the hand"),
        Zone(32.0, 40.0, "warm"),
        Zone(40.0, 50.0, "hot, but you can hold on"),
    ),
    marks=(Mark(-3.0, 45.0, "coldest day"),),
)
_MONTHS = tuple(
    ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"]
)
_HEATING = (400.0, 350.0, 280.0, 160.0, 60.0, 5.0, 0.0, 0.0, 30.0, 140.0, 280.0, 390.0)
YEAR = Chart(
    kind="stacked",
    title="Electricity through the year",
    sentence="Heating takes about 2,095 kWh and hot water about 820 kWh, most of it in January.",
    x_axis=Axis("Month"),
    y_axis=Axis("Electricity", "kWh"),
    x=_MONTHS,
    series=(
        Series("Heating", _HEATING),
        Series("Hot water", (80.0, 75, 78, 70, 66, 60, 58, 58, 60, 70, 75, 70)),
    ),
)
ROOMS = Chart(
    kind="bar",
    title="Heat loss by room",
    sentence="The living room loses most, about 1,050 W on the coldest day.",
    x_axis=Axis("Room"),
    y_axis=Axis("Heat loss", "W"),
    x=("Kitchen", "Living room", "Bedroom at the back", "Bathroom"),
    series=(
        Series(
            "Heat loss",
            (620.0, 1050.0, 540.0, 330.0),
            low=(560.0, 950.0, 500.0, 300.0),
            high=(680.0, 1150.0, 580.0, 360.0),
        ),
    ),
)
BAND = Chart(
    kind="band",
    title="Heating through the year, with its range",
    sentence="January lies between 320 and 480 kWh.",
    x_axis=Axis("Month"),
    y_axis=Axis("Electricity", "kWh"),
    x=_MONTHS,
    series=(
        Series(
            "Heating",
            _HEATING,
            low=tuple(0.8 * value for value in _HEATING),
            high=tuple(1.2 * value for value in _HEATING),
        ),
    ),
)

METER = drawings.MeterDisplay(
    name="Electricity meter",
    unit="kWh",
    before="004217",
    after="8",
    writes_after=False,
    before_label="write these down",
    after_label="leave this one",
    result="4217 kWh",
)

UNTRUSTED = '<script>alert("1")</script> & Sam\'s *room* #panic("x")'


def every_block() -> tuple[b.Block, ...]:
    """One of each block."""
    return (
        b.Heading("At a glance", 1, "glance"),
        b.Text(
            "Warm **all day**, *gently*; see [the gauge](#gauge) and [our page](https://example.org)."
        ),
        b.Steps(("Look at the gauge.", "Open the valve **slowly**.", "Close it.")),
        b.Bullets(("Keep the grille clear.", escaped(UNTRUSTED))),
        b.Definitions((b.Definition("Outside unit", "by the back door"),)),
        b.Table(
            "Radiators",
            (b.Column("Room", share=2), b.Column("Heat", numeric=True), b.Column("Verdict")),
            (
                ("Kitchen", HEAT_LOSS, b.Tag("within", "good")),
                ("Bedroom at the back", "540 W", b.Tag("look again", "look")),
                ("Whole home", "1,159 W", b.Tag("outside", "bad")),
            ),
            last_is_total=True,
        ),
        b.Dials(
            "night",
            "A colder night",
            b.Dial("Colder by", ("nothing", "1 °C", "2 °C"), 1),
            b.Dial("For", ("6 hours", "8 hours")),
            (
                ("Steady.", "Steady."),
                ("A little: £5 less.", "A little: £9 less."),
                ("More: £11 less.", "More: £16 less."),
            ),
            b.Table(
                "A night colder for 8 hours",
                (b.Column("Colder by"), b.Column("In a year")),
                (("1 °C", "£9 less"), ("2 °C", "£16 less")),
            ),
        ),
        b.Caution("warning", "Water from this tap may be **hot enough to scald**.", "scalding"),
        b.Caution("caution", "Do not let the pressure rise above 2.5 bar.", "pressure"),
        b.Figures((HEAT_LOSS, PRESSURE, _ROOM)),
        b.WorkingTree(HEAT_LOSS),
        b.Picture(METER, "The meter shows 004217.8; write down 4217.", "The meter by the door"),
        CURVE,
        YEAR,
        ROOMS,
        BAND,
        b.Checklist((b.ChecklistItem("Filter clean"), b.ChecklistItem("Pressure", "bar"))),
        b.WriteIn("Meter reading", unit="kWh"),
        b.WriteIn("Remarks", "full", lines=2),
        b.Section(
            "The cylinder",
            "cylinder",
            (
                b.Question(
                    "gauge",
                    "What should the pressure gauge read?",
                    (b.Text("Between the two green marks."), b.Bullets(("Cold: 1.2 bar",))),
                    place="Cylinder cupboard",
                    seasons=("Winter", "Summer"),
                    keywords=("manometer", "bar"),
                ),
                b.Question(
                    "frost-steam",
                    "Why does the outside unit steam?",
                    (b.Text("It is melting its own frost; wait ten minutes."),),
                    place="Outside unit",
                    seasons=("Winter",),
                    keywords=("smoke", "defrost"),
                ),
            ),
        ),
        b.PageBreak(),
        b.Columns(((b.Text("Left."),), (b.Text("Right."),))),
        b.Card("Call us when", (b.Bullets(("it leaks", "it is cold in two rooms")),), "call"),
        b.Card("Never touched", (b.Text("The red valve."),), "never"),
        b.Card("Quite normal", (b.Text("Steam in frost."),), "normal"),
        b.SignOff("We went through all of this together.", ("Householder", "Engineer")),
        b.Code("https://example.org/guide#gauge", "The gauge in your guide"),
        b.Labels(
            (
                b.Label("Filling valve", "Keep **closed**.", b.Code("https://example.org", "Fill")),
                b.Label("Isolator", "Feeds the outside unit."),
            )
        ),
    )


def document(**changes: object) -> b.Document:
    """The document with every block, changed where asked."""
    fields: dict[str, object] = {
        "title": "Home guide",
        "subtitle": "How this home is kept warm, and what to do when it is not",
        "kind": "guide",
        "home": "Fernhollow",
        "issued": date(2026, 3, 5),
        "blocks": every_block(),
        "footer": "Invented Heating, telephone 00000 000000",
        "synonyms": (("radiator", "heater"), ("steam", "smoke", "mist")),
    }
    return b.Document(**(fields | changes))  # type: ignore[arg-type] # a test may change any field
