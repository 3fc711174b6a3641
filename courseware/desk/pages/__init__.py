"""A module a screen: `ROUTES`, and `NAV` where the screen stands in the navigation. All are found by `app`."""
