"""Free convection: Nusselt numbers of the shapes found in and around a cold box."""
