"""The page opened in a real browser: found, read, folded, in the light and in the dark."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe  # type: ignore[import-untyped] # has no types
from playwright.sync_api import Browser, Page, sync_playwright

from hearthbook.documents import blocks as b
from hearthbook.render import html
from tests.render.sample import document

_FLAGS = (
    "--no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
)
_RULES = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]
_SIZES = {"telephone": (360, 740), "tablet": (820, 1180), "desk": (1280, 900)}


def _asked(anchor: str, question: str, answer: str, place: str, *keywords: str) -> b.Question:
    seasons = ("Winter",) if "frost" in question else ()
    return b.Question(anchor, question, (b.Text(answer),), place, seasons, keywords)


_MORE = b.Section(
    "Questions",
    "questions",
    (
        _asked("top-up", "How do I top up the water?", "Open the valve.", "Cylinder", "filling"),
        _asked("steam", "Why does the outside unit steam in frost?", "It melts ice.", "Outside"),
        _asked("warm", "Why are the radiators only warm?", "It is enough.", "Rooms", "lukewarm"),
        _asked("noise", "What is the humming at night?", "The pump.", "Outside", "noise", "loud"),
        _asked("holiday", "What do I set before a holiday?", "Sixteen degrees.", "Rooms", "away"),
    ),
)


@pytest.fixture(scope="module")
def file(tmp_path_factory: pytest.TempPathFactory) -> Path:
    path = tmp_path_factory.mktemp("page") / "guide.html"
    whole = document()
    path.write_text(html.render(document(blocks=(*whole.blocks, _MORE))), encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        opened = playwright.chromium.launch(
            executable_path="/usr/bin/chromium", args=_FLAGS.split()
        )
        yield opened
        opened.close()


@pytest.fixture
def page(browser: Browser, file: Path) -> Iterator[Page]:
    context = browser.new_context(viewport={"width": 360, "height": 740}, offline=True)
    opened = context.new_page()
    complaints: list[str] = []
    opened.on("console", lambda message: complaints.append(message.text))
    opened.on("pageerror", lambda error: complaints.append(str(error)))
    opened.goto(file.as_uri())
    yield opened
    context.close()
    assert complaints == []


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("size", _SIZES.values(), ids=_SIZES)
def test_no_rule_of_access_is_broken(
    browser: Browser, file: Path, size: tuple[int, int], scheme: str
) -> None:
    context = browser.new_context(
        viewport={"width": size[0], "height": size[1]},
        color_scheme="dark" if scheme == "dark" else "light",
        bypass_csp=True,  # axe itself is put into the page
    )
    page = context.new_page()
    page.goto(file.as_uri())
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true")
    page.fill("#asked", "frost")

    found = Axe().run(page, options={"runOnly": _RULES})

    assert found.violations_count == 0, found.generate_report()
    context.close()


@pytest.mark.parametrize("size", _SIZES.values(), ids=_SIZES)
@pytest.mark.parametrize("letters", ["0", "3"])
def test_nothing_reaches_beyond_the_screen(
    browser: Browser, file: Path, size: tuple[int, int], letters: str
) -> None:
    page = browser.new_page(viewport={"width": size[0], "height": size[1]})
    page.goto(file.as_uri())
    page.evaluate(f"document.documentElement.dataset.size = '{letters}'")
    page.evaluate("for (const one of document.querySelectorAll('details')) one.open = true")

    assert page.evaluate("document.documentElement.scrollWidth") <= size[0]
    page.close()


def test_everything_to_press_is_large_enough(page: Page) -> None:
    """Source: WCAG 2.2, success criterion 2.5.8, target size (minimum): 24 by 24 CSS pixels."""
    sizes = page.evaluate(
        """[...document.querySelectorAll('button, select, input, summary, nav a, footer a')]
           .map(one => one.getBoundingClientRect()).filter(box => box.width > 0)
           .map(box => Math.min(box.width, box.height))"""
    )

    assert len(sizes) > 10
    assert min(sizes) >= 24


def test_the_page_asks_the_network_for_nothing(browser: Browser, file: Path) -> None:
    page = browser.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    page.goto(file.as_uri())
    page.wait_for_timeout(100)

    assert [one for one in asked if not one.startswith(("data:", file.as_uri()))] == []
    page.close()


def test_without_script_every_answer_can_be_read(browser: Browser, file: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(file.as_uri())

    assert page.get_by_text("Open the valve.").is_visible()
    assert page.locator("#finder").is_hidden()
    context.close()


@pytest.mark.parametrize(
    ("asked", "first"),
    [
        ("gauge", "What should the pressure gauge read?"),
        ("gaueg", "What should the pressure gauge read?"),
        ("pressuer", "What should the pressure gauge read?"),
        ("TOPPING UP", "How do I top up the water?"),
        ("is it normal that it smokes?", "Why does the outside unit steam?"),
        ("topup", "How do I top up the water?"),
        ("heater", "Why are the radiators only warm?"),
        ("raditors lukewarm", "Why are the radiators only warm?"),
        ("nois", "What is the humming at night?"),
        ("going away", "What do I set before a holiday?"),
    ],
)
def test_plain_words_find_their_answer(page: Page, asked: str, first: str) -> None:
    page.fill("#asked", asked)

    answers = page.locator("#answers li a")
    assert answers.count() > 0
    assert (answers.first.text_content() or "").startswith(first)


def test_a_word_that_is_nowhere_finds_nothing_and_says_so(page: Page) -> None:
    page.fill("#asked", "xylophone")

    assert page.locator("#answers li").count() == 0
    assert "Nothing here matches" in (page.locator("#count").text_content() or "")


def test_place_and_season_narrow_the_answers(page: Page) -> None:
    page.select_option("#place", "Rooms")
    assert page.locator("#count").text_content() == "2 answers"

    page.select_option("#place", "Outside")
    page.select_option("#season", "Summer")
    assert page.locator("#answers li").all_text_contents() == [
        "What is the humming at night?Outside"
    ]

    page.click("#clear")
    assert page.locator("#answers li").count() == 0


def test_an_answer_opens_when_it_is_chosen(page: Page) -> None:
    assert not page.get_by_text("The pump.").is_visible()

    page.fill("#asked", "humming")
    page.click("#answers a")
    page.wait_for_timeout(50)

    assert page.get_by_text("The pump.").is_visible()


def test_a_code_that_is_scanned_opens_its_answer(browser: Browser, file: Path) -> None:
    page = browser.new_page()
    page.goto(f"{file.as_uri()}#holiday")

    assert page.get_by_text("Sixteen degrees.").is_visible()
    page.close()


def test_all_answers_open_and_close_together(page: Page) -> None:
    page.click("#open-all")
    assert page.locator("details.question:not([open])").count() == 0

    page.click("#open-all")
    assert page.locator("details.question[open]").count() == 0


def test_letters_grow_and_shrink(page: Page) -> None:
    def size() -> float:
        found: float = page.evaluate("parseFloat(getComputedStyle(document.body).fontSize)")
        return found

    before = size()
    page.click("#larger")
    larger = size()
    page.click("#smaller")

    assert larger > before * 1.1
    assert size() == before


def test_what_is_kept_of_a_stranger_s_words_cannot_act(whole_page: str) -> None:
    assert '<script>alert("1")' not in whole_page
    assert "&lt;script&gt;alert(" in whole_page
    assert len(re.findall(r"<script", whole_page)) == 2


def test_the_page_may_load_and_run_nothing_but_itself(whole_page: str) -> None:
    policy = re.search(r'Content-Security-Policy" content="([^"]+)"', whole_page)
    assert policy is not None
    assert "default-src &#x27;none&#x27;" in policy[1]
    assert "unsafe" not in policy[1]
    assert " style=" not in re.sub(r"data:[^\"]+", "", whole_page)


def test_the_page_is_small_enough_to_send(whole_page: str) -> None:
    assert len(whole_page.encode("utf-8")) < 1_500_000


def test_two_dials_tell_the_answer_they_are_turned_to(page: Page) -> None:
    dials, said = page.locator(".dials"), page.locator(".dials output")
    assert dials.is_visible()
    assert said.text_content() == "A little: £5 less."
    first, second = (page.get_by_role("slider", name=name) for name in ("Colder by", "For"))
    assert first.get_attribute("aria-valuetext") == "1 °C"

    first.focus()
    page.keyboard.press("ArrowRight")
    second.focus()
    page.keyboard.press("End")

    assert said.text_content() == "More: £16 less."
    assert first.get_attribute("aria-valuetext") == "2 °C"
    assert said.get_attribute("aria-live") == "polite"
    assert page.locator(".dials strong").all_text_contents() == ["2 °C", "8 hours"]


def test_without_script_the_table_stands_in_for_the_dials(browser: Browser, file: Path) -> None:
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    page.goto(file.as_uri())
    assert not page.locator(".dials").is_visible()
    assert page.get_by_text("£16 less", exact=True).is_visible()
    context.close()


def test_on_paper_the_table_stands_in_for_the_dials(page: Page) -> None:
    page.emulate_media(media="print")
    assert not page.locator(".dials").is_visible()
    assert page.get_by_text("£16 less", exact=True).is_visible()
