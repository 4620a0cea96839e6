"""The balance of a sealed system once more: one machine at a time, slowly and plainly.

Nothing of coldwright computes here; only the numbers of a build are read (sizes, the compressor's
parameters, an oil's constants). Properties come from the reference equations (CoolProp), integrals
and roots from SciPy. Corners are sharp, walls and the exchanger are solved to convergence.
"""
