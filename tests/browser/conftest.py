"""A real browser without a window, that tells what a page asks of it: errors, requests, room, access."""

from __future__ import annotations

import base64
import json
import os
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from selenium.common.exceptions import WebDriverException
from selenium.webdriver import Chrome, ChromeOptions
from selenium.webdriver.chrome.service import Service

_SWITCHES = (
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
_ATTEMPTS = 4
_OVERFLOWING = """
const room = document.documentElement.clientWidth;
const framed = node => node.parentElement && node.parentElement.closest('.frame, svg');
return [...document.querySelectorAll('body, body *')]
  .filter(node => !framed(node) && node.getBoundingClientRect().width > 0)
  .filter(node => node.getBoundingClientRect().right > room + 1 || node.getBoundingClientRect().left < -1)
  .map(node => node.tagName + '.' + (node.getAttribute('class') || '') + ' ' + (node.textContent || '').slice(0, 40));
"""
_CUT_OFF = """
return [...document.querySelectorAll('.frame')].filter(node => node.scrollWidth > node.clientWidth + 1)
  .map(node => (node.querySelector('caption') || node).textContent.slice(0, 40));
"""
_ACCESS = """
const done = arguments[arguments.length - 1];
axe.run(document, {resultTypes: ['violations']}).then(
  found => done(found.violations.map(each =>
    [each.impact, each.id, each.help, each.nodes.slice(0, 3).map(node => node.html.slice(0, 160))])),
  error => done([['critical', 'axe', String(error), []]]));
"""


class Paper(NamedTuple):
    """A sheet size in inches, and the margins of the page's own style in millimetres."""

    width: float
    height: float

    @property
    def room(self) -> int:
        """CSS pixels (96 an inch) between the margins of 13 mm on the left and the right."""
        return int((self.width - 2 * 13 / 25.4) * 96)


A4 = Paper(210 / 25.4, 297 / 25.4)
LETTER = Paper(8.5, 11)


class Page:
    """One page in the browser."""

    def __init__(self, driver: Chrome, folder: Path) -> None:
        self.driver = driver
        self._folder = folder

    def open(self, html: str, *, width: int = 1000, dark: bool = False, media: str = "") -> None:
        """Shows ``html`` from a file, ``width`` CSS pixels wide."""
        path = self._folder / "page.html"
        path.write_text(html, encoding="utf-8")
        self.visit(path, width=width, dark=dark, media=media)

    def visit(self, path: Path, *, width: int = 1000, dark: bool = False, media: str = "") -> None:
        self._forget()
        scheme = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
        self.driver.execute_cdp_cmd("Emulation.setEmulatedMedia", {"media": media, "features": [scheme]})
        self.driver.execute_cdp_cmd(
            "Emulation.setDeviceMetricsOverride",
            {"width": width, "height": 900, "deviceScaleFactor": 1, "mobile": False},
        )
        self.driver.get(path.resolve().as_uri())

    @property
    def complaints(self) -> list[str]:
        """What stands in the console."""
        return [entry["message"] for entry in self.driver.get_log("browser")]

    @property
    def requests(self) -> list[str]:
        """What the page fetched, but for itself and what stands in it."""
        events = [json.loads(entry["message"])["message"] for entry in self.driver.get_log("performance")]
        asked = [
            event["params"]["request"]["url"] for event in events if event["method"] == "Network.requestWillBeSent"
        ]
        own = self.driver.current_url.split("#")[0]
        # What the browser asks itself for its own first page comes from no page of ours.
        apart = ("data:", "chrome:")
        return [url for url in asked if url.split("#")[0] != own and not url.startswith(apart)]

    @property
    def overflowing(self) -> list[str]:
        """Elements that stand out of the window at its sides; what scrolls within its own frame does not."""
        found: list[str] = self.driver.execute_script(_OVERFLOWING)
        return found

    @property
    def cut_off(self) -> list[str]:
        """Tables that have no room in their frames: on paper nobody can scroll."""
        found: list[str] = self.driver.execute_script(_CUT_OFF)
        return found

    def barriers(self, *impacts: str) -> list[object]:
        """What the accessibility checker finds of these impacts, *serious* and *critical* if not given."""
        axe = os.environ.get("STACKLINT_AXE")
        assert axe, "set STACKLINT_AXE to the path of axe.min.js (npm install axe-core)"
        self.driver.execute_script(Path(axe).read_text(encoding="utf-8"))
        found: list[list[object]] = self.driver.execute_async_script(_ACCESS)
        return [each for each in found if each[0] in (impacts or ("serious", "critical"))]

    def pdf(self, paper: Paper) -> bytes:
        """The page as it comes from the printer. Now and then the browser's printing fails, and it is asked again."""
        asked = {
            "paperWidth": paper.width,
            "paperHeight": paper.height,
            "preferCSSPageSize": False,
            "marginTop": 14 / 25.4,
            "marginBottom": 16 / 25.4,
            "marginLeft": 13 / 25.4,
            "marginRight": 13 / 25.4,
        }
        for attempt in range(_ATTEMPTS):
            try:
                printed = self.driver.execute_cdp_cmd("Page.printToPDF", asked)
            except WebDriverException as error:
                if "Printing failed" not in str(error) or attempt == _ATTEMPTS - 1:
                    raise
                continue
            return base64.b64decode(printed["data"])
        raise AssertionError

    def _forget(self) -> None:
        for log in ("browser", "performance"):
            self.driver.get_log(log)


@pytest.fixture(scope="session")
def _driver(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Chrome]:
    browser, driver = shutil.which("chromium"), shutil.which("chromedriver")
    assert browser, "Chromium is not installed"
    assert driver, "Chromium's driver is not installed"
    options = ChromeOptions()
    options.binary_location = browser
    for switch in (*_SWITCHES, f"--user-data-dir={tmp_path_factory.mktemp('browser')}"):
        options.add_argument(switch)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    chrome = Chrome(options=options, service=Service(driver))
    chrome.set_script_timeout(120)
    # The page that the browser begins with asks for much; it is left before anything is looked at.
    chrome.get("about:blank")
    yield chrome
    chrome.quit()


@pytest.fixture
def page(_driver: Chrome, tmp_path: Path) -> Page:
    return Page(_driver, tmp_path)


@pytest.fixture(params=[A4, LETTER], ids=["A4", "Letter"])
def paper(request: pytest.FixtureRequest) -> Paper:
    """Each of the two sheet sizes that offices print on."""
    chosen: Paper = request.param
    return chosen
