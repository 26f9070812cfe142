"""`python -m threeview` is the command `threeview`."""

from threeview.cli import main

if __name__ == "__main__":
    main()
