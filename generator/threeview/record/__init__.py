"""Learners' records: events, the file that carries them, and joining two of them.

`parse_record` reads a file or refuses it with words; `merge` joins two logs as sets;
`export_record` writes a file again, byte for byte as the browser does.
"""

from threeview.record.event import Actor, Event
from threeview.record.log import Record, RefusedRecord, export_record, merge, parse_record

__all__ = ["Actor", "Event", "Record", "RefusedRecord", "export_record", "merge", "parse_record"]
