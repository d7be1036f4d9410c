"""The values that more than one mapping of a line file holds.     (line/reading/values.py)"""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import BaseModel, ConfigDict

from takeup.line.reading.fields import free_text, quantity

NOT_COVERED = "not covered by this version"
NOT_COMPUTED = "not computed by this version"

Name: TypeAlias = Annotated[str, free_text("a name")]
Words: TypeAlias = Annotated[str, free_text("a text")]
Length: TypeAlias = Annotated[float, quantity("length", "3.5 m")]
SizeLength: TypeAlias = Annotated[float, quantity("length", "80 mm", above=0.0)]
Movement: TypeAlias = Annotated[float, quantity("length", "40 mm", least=0.0)]
Force: TypeAlias = Annotated[float, quantity("force", "120 kN", above=0.0)]
Pressure: TypeAlias = Annotated[float, quantity("pressure", "12 bar(g)")]
RatedPressure: TypeAlias = Annotated[float, quantity("pressure", "16 bar(g)", above=0.0)]
Temperature: TypeAlias = Annotated[float, quantity("temperature", "195 °C")]
Stress: TypeAlias = Annotated[float, quantity("stress", "205 MPa", above=0.0)]
Density: TypeAlias = Annotated[float, quantity("density", "120 kg/m3", above=0.0)]
LineRate: TypeAlias = Annotated[float, quantity("force per length", "150 N/mm", above=0.0)]
TurnRate: TypeAlias = Annotated[float, quantity("moment per angle", "40 N·m/deg", above=0.0)]
Source: TypeAlias = Annotated[str, free_text("a text that says where the number comes from")]


class Item(BaseModel):
    """What every mapping of a line file shares: an unknown key is a fault, and nothing changes afterwards."""

    model_config = ConfigDict(extra="forbid", frozen=True)
