"""The rendered course as a folder of plain files, and a server for its author."""

from threeview.site.build import SiteReport, build_site
from threeview.site.serve import serve_site

__all__ = ["SiteReport", "build_site", "serve_site"]
