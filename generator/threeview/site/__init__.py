"""The rendered course as a folder of plain files, and a server for its author."""

from threeview.site.build import SiteReport, build_site

__all__ = ["SiteReport", "build_site"]
