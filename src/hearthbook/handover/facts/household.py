"""Facts about the home, the firm, the papers and what is still open."""

from __future__ import annotations

from hearthbook.design.results import Design
from hearthbook.documents.inline import escaped
from hearthbook.handover.facts.speech import Speech
from hearthbook.handover.facts.tables import table
from hearthbook.handover.wording import Facts, Ready, sentence
from hearthbook.record.commissioning import HandedDocument
from hearthbook.record.household import PrintSize, Tenure

__all__ = ["household_facts"]


def household_facts(design: Design, speech: Speech) -> Facts:
    """Facts about the people, the firm, the papers and the open points."""
    home = design.home
    commissioning = home.commissioning
    papers = commissioning.documents if commissioning else ()
    return {
        "home": {
            "name": home.name,
            "household": home.household.name,
            "reference": home.reference,
            "commissioned": speech.date(commissioning.date) if commissioning else None,
            "large_print": home.household.print_size is PrintSize.LARGE,
        },
        "firm": home.firm.model_dump(),
        "let": home.household.tenure is not Tenure.OWNER,
        "places": dict.fromkeys(_PLACES) | dict(home.places),
        "service": {
            "next": speech.date(commissioning.next_service) if commissioning else None,
            "seasonal_visit": speech.date(commissioning.seasonal_visit) if commissioning else None,
        },
        "papers": [_paper(paper, speech) for paper in papers],
        "table_papers": _papers_table([_paper(paper, speech) for paper in papers], speech),
        "open_items": [
            {
                "what": item.what,
                "owner": item.owner,
                "due": f", {speech.date(item.due)}" if item.due else "",
            }
            for item in (commissioning.open_items if commissioning else ())
        ],
        "unknowns": [escaped(unknown.question) for unknown in design.unknowns],
        "ventilation_recovers": home.building.ventilation.heat_recovery is not None,
    }


_PLACES = ("water_stop_tap", "consumer_unit", "documents", "outdoor_sensor")


def _paper(paper: HandedDocument, speech: Speech) -> dict[str, str]:
    status: str = paper.status
    if status == "to_follow" and paper.due is None:
        status = "to_follow_undated"
    state = speech.words("words", status, due=speech.date(paper.due))
    name = f"{paper.name} ({paper.reference})" if paper.reference else paper.name
    return {"name": sentence(name), "where": paper.where, "state": state}


def _papers_table(papers: list[dict[str, str]], speech: Speech) -> Ready:
    if not papers:
        return Ready(speech.words("words", "nobody_yet"))
    heads = [speech.words("tables", f"papers_{name}") for name in ("name", "where", "state")]
    rows = [[paper["name"], paper["where"], paper["state"]] for paper in papers]
    return table(speech.words("tables", "papers_caption"), heads, rows)
