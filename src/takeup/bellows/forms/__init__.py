"""Published closed forms of unreinforced U-shaped bellows, each with its source.     (bellows/forms/__init__.py)"""

from takeup.bellows.forms.damage import damage
from takeup.bellows.forms.limits import Limit, acceptance
from takeup.bellows.forms.published import Forms, equivalent_movement, published

__all__ = ["Forms", "Limit", "acceptance", "damage", "equivalent_movement", "published"]
