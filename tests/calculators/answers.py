"""Picks one part out of a parsed answer, by its name."""

from __future__ import annotations

from typing import Any


def result(reply: dict[str, Any], name: str) -> dict[str, Any]:
    return next(one for one in reply["results"] if one["name"] == name)


def value(reply: dict[str, Any], name: str) -> str:
    return str(result(reply, name)["value"])


def finding(reply: dict[str, Any], name: str) -> dict[str, Any]:
    return next(one for one in reply["findings"] if one["name"] == name)


def verdict(reply: dict[str, Any], name: str) -> str:
    return str(finding(reply, name)["verdict"])


def messages(reply: dict[str, Any]) -> list[tuple[str, str]]:
    return [(one["input"], one["message"]) for one in reply["problems"]]
