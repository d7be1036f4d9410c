"""The values that more than one mapping of a line file holds.     (line/reading/values.py)"""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import BaseModel, ConfigDict

from takeup.reading.fields import free_text, name, quantity

NOT_COVERED = "not covered by this version"
NOT_COMPUTED = "not computed by this version"

Name: TypeAlias = Annotated[str, name("a name")]
Words: TypeAlias = Annotated[str, free_text("a text")]
Coordinate: TypeAlias = Annotated[float, quantity("length", "3.5 m", most="10000 km")]
Elevation: TypeAlias = Annotated[float, quantity("length", "3.5 m", most="10 km")]
Thickness: TypeAlias = Annotated[float, quantity("length", "80 mm", above=0.0, most="1 m")]
Height: TypeAlias = Annotated[float, quantity("length", "300 mm", above=0.0, most="10 m")]
JointLength: TypeAlias = Annotated[float, quantity("length", "600 mm", above=0.0, most="10 m")]
FittingLength: TypeAlias = Annotated[float, quantity("length", "80 mm", above=0.0, most="100 m")]
Movement: TypeAlias = Annotated[float, quantity("length", "40 mm", least=0.0, most="1 m")]
Force: TypeAlias = Annotated[float, quantity("force", "120 kN", above=0.0, most="100 MN")]
Weight: TypeAlias = Annotated[float, quantity("weight", "1.2 kN", above=0.0, most="1 MN")]
Pressure: TypeAlias = Annotated[float, quantity("pressure", "12 bar(g)", most="2000 bar(g)")]
RatedPressure: TypeAlias = Annotated[float, quantity("pressure", "16 bar(g)", above=0.0, most="2000 bar(g)")]
Temperature: TypeAlias = Annotated[float, quantity("temperature", "195 °C")]
Stress: TypeAlias = Annotated[float, quantity("stress", "205 MPa", above=0.0)]
Density: TypeAlias = Annotated[float, quantity("density", "120 kg/m3", above=0.0)]
LineRate: TypeAlias = Annotated[float, quantity("force per length", "150 N/mm", above=0.0)]
TurnRate: TypeAlias = Annotated[float, quantity("moment per angle", "40 N·m/deg", above=0.0)]
Chlorides: TypeAlias = Annotated[float, quantity("content", "30 ppm", least=0.0, most="300000 ppm")]
Source: TypeAlias = Annotated[str, free_text("a text that says where the number comes from")]


class Item(BaseModel):
    """What every mapping of a line file shares: an unknown key is a fault, and nothing changes afterwards."""

    model_config = ConfigDict(extra="forbid", frozen=True)
