"""The made guide of both demo homes opened in a real browser, as a household opens it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped] # has no types
from playwright.sync_api import Browser, Page, sync_playwright

_FLAGS = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
)
_RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"]
_SIZES = {"telephone": (360, 740), "tablet": (820, 1180), "desk": (1280, 900)}
_BOTH = pytest.mark.parametrize("home", ["well_done", "with_faults"])
_EVERY_SIZE = pytest.mark.parametrize("size", _SIZES.values(), ids=_SIZES)
_DEFROST = "q-steam"


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(
            executable_path="/usr/bin/chromium", args=_FLAGS.split()
        )
        yield opened
        opened.close()


class Opened:
    """A guide in the browser, with all it asked for and complained of."""

    def __init__(self, browser: Browser, guide: Path, size: tuple[int, int]) -> None:
        self.context = browser.new_context(
            viewport={"width": size[0], "height": size[1]},
            bypass_csp=True,  # axe itself is put into the page
        )
        self.complaints: list[str] = []
        self.requests: list[str] = []
        self.page: Page = self.context.new_page()
        self.page.on("console", lambda message: self.complaints.append(message.text))
        self.page.on("pageerror", lambda error: self.complaints.append(str(error)))
        self.page.on("request", lambda request: self.requests.append(request.url))
        self.address = guide.as_uri()
        self.page.goto(self.address)


@_BOTH
@_EVERY_SIZE
def test_the_guide_opens_whole_quiet_and_for_everybody(
    home: str, size: tuple[int, int], browser: Browser, made_packs: dict[str, Path]
) -> None:
    opened = Opened(browser, made_packs[home] / "guide.html", size)
    page = opened.page
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true")

    found = Axe().run(page, options={"runOnly": _RULES})
    assert found.violations_count == 0, found.generate_report()
    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
    broken = page.evaluate(
        "[...document.images].filter(one => one.complete && !one.naturalWidth).length"
    )
    assert broken == 0
    assert opened.complaints == []
    assert [a for a in opened.requests if not a.startswith(("data:", opened.address))] == []
    opened.context.close()


@_BOTH
@pytest.mark.parametrize("asked", ["steam", "smok", "smoke", "steem"])
def test_a_household_that_sees_steam_finds_the_defrost(
    home: str, asked: str, browser: Browser, made_packs: dict[str, Path]
) -> None:
    opened = Opened(browser, made_packs[home] / "guide.html", _SIZES["telephone"])
    page = opened.page
    page.fill("#asked", asked)

    answers = page.locator("#answers li a")
    targets = [answers.nth(at).get_attribute("href") for at in range(min(answers.count(), 3))]
    assert f"#{_DEFROST}" in targets

    page.click(f"#answers a[href='#{_DEFROST}']")
    page.wait_for_timeout(50)
    assert page.locator(f"#{_DEFROST}[open], #{_DEFROST} details[open]").count() == 1
    opened.context.close()


@_BOTH
def test_every_link_within_the_guide_leads_somewhere(
    home: str, browser: Browser, made_packs: dict[str, Path]
) -> None:
    opened = Opened(browser, made_packs[home] / "guide.html", _SIZES["desk"])
    lost = opened.page.evaluate(
        """[...document.querySelectorAll('a[href^="#"]')].map(one => one.getAttribute('href'))
           .filter(target => target.length > 1 && !document.getElementById(target.slice(1)))"""
    )
    assert lost == []
    opened.context.close()


def test_a_scanned_label_opens_its_answer(browser: Browser, made_packs: dict[str, Path]) -> None:
    opened = Opened(browser, made_packs["well_done"] / "guide.html", _SIZES["telephone"])
    opened.page.goto(f"{opened.address}#q-freeze_valves_drip")
    assert opened.page.locator("#q-freeze_valves_drip").is_visible()
    opened.context.close()
