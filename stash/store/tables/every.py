"""Every table at once, for migrations and for checks."""

from stash.store.tables import cloth, make, pattern, record
from stash.store.tables.base import Base

metadata = Base.metadata
"""All tables; the imports above are what fills it."""

MODULES = (cloth, pattern, make, record)
