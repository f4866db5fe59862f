"""Sparse Cholesky by CHOLMOD (Chen, Davis, Hager & Rajamanickam 2008, ACM TOMS 35, 22) through ctypes.

The structures are those of CHOLMOD 3 (SuiteSparse 5, Debian's libcholmod3); another version is refused.
"""

import ctypes
from ctypes import POINTER, byref, c_char, c_double, c_int, c_size_t, c_void_p

import numpy as np


class _Method(ctypes.Structure):
    _fields_ = [("lnz", c_double), ("fl", c_double), ("prune", c_double * 2), ("nd_oksep", c_double), ("other_1", c_double * 4),
                ("nd_small", c_size_t), ("other_2", c_size_t * 4), ("aggressive", c_int), ("order_for_lu", c_int),
                ("nd_compress", c_int), ("nd_camd", c_int), ("nd_components", c_int), ("ordering", c_int), ("other_3", c_size_t * 4)]


class _Common(ctypes.Structure):
    _fields_ = [("dbound", c_double), ("grow0", c_double), ("grow1", c_double), ("grow2", c_size_t), ("maxrank", c_size_t),
                ("supernodal_switch", c_double), ("supernodal", c_int), ("final_asis", c_int), ("final_super", c_int),
                ("final_ll", c_int), ("final_pack", c_int), ("final_monotonic", c_int), ("final_resymbol", c_int),
                ("zrelax", c_double * 3), ("nrelax", c_size_t * 3), ("prefer", c_int * 4), ("print", c_int), ("precise", c_int),
                ("try_catch", c_int), ("error_handler", c_void_p), ("nmethods", c_int), ("current", c_int), ("selected", c_int),
                ("method", _Method * 10), ("postorder", c_int), ("rest", c_char * 16384)]


class _Sparse(ctypes.Structure):
    _fields_ = [("nrow", c_size_t), ("ncol", c_size_t), ("nzmax", c_size_t), ("p", c_void_p), ("i", c_void_p), ("nz", c_void_p),
                ("x", c_void_p), ("z", c_void_p), ("stype", c_int), ("itype", c_int), ("xtype", c_int), ("dtype", c_int),
                ("sorted", c_int), ("packed", c_int)]


class _Dense(ctypes.Structure):
    _fields_ = [("nrow", c_size_t), ("ncol", c_size_t), ("nzmax", c_size_t), ("d", c_size_t), ("x", c_void_p), ("z", c_void_p),
                ("xtype", c_int), ("dtype", c_int)]


class _FactorHead(ctypes.Structure):
    _fields_ = [("n", c_size_t), ("minor", c_size_t)]


_PATTERN, _REAL, _LOWER, _GIVEN, _SUPERNODAL, _SYSTEM_A = 0, 1, -1, 1, 2, 0
_library = ctypes.CDLL("libcholmod.so.3")
for _name in ("cholmod_analyze_p", "cholmod_solve"):
    getattr(_library, _name).restype = c_void_p
_library.cholmod_solve.argtypes = [c_int, c_void_p, c_void_p, c_void_p]
_common = _Common()
_library.cholmod_start(byref(_common))
if _library.cholmod_version(None) // 1000 != 3 or _common.nmethods != 0 or _common.supernodal_switch != 40:
    raise ImportError("CHOLMOD 3 is needed (Debian: libcholmod3)")


def _view(matrix, values):
    """A symmetric matrix of which the lower triangle is stored by columns; the arrays must outlive it."""
    return _Sparse(matrix.shape[0], matrix.shape[1], matrix.nnz, matrix.indptr.ctypes.data, matrix.indices.ctypes.data, None,
                   matrix.data.ctypes.data if values else None, None, _LOWER, 0, _REAL if values else _PATTERN, 0, 1, 1)


def order(pattern, how):
    """An order of elimination of a graph, "amd" or "metis", from the lower triangle by columns."""
    found = np.empty(pattern.shape[0], np.int32)
    sparse = _view(pattern, False)
    rest = (None, c_size_t(0)) if how == "amd" else (None, c_size_t(0), c_int(1))
    if not getattr(_library, "cholmod_" + how)(byref(sparse), *rest, found.ctypes.data_as(c_void_p), byref(_common)):
        raise RuntimeError("no order of elimination: " + how)
    return found


class Factor:
    """L of a positive definite matrix, given by its lower triangle (CSC, int32), eliminated in a given order."""

    def __init__(self, lower, permutation):
        self._lower, self._permutation = lower, np.ascontiguousarray(permutation, np.int32)
        sparse = _view(lower, True)
        _common.nmethods, _common.method[0].ordering, _common.postorder = 1, _GIVEN, 1
        _common.supernodal = _SUPERNODAL
        self._factor = c_void_p(_library.cholmod_analyze_p(
            byref(sparse), self._permutation.ctypes.data_as(c_void_p), None, c_size_t(0), byref(_common)))
        _library.cholmod_factorize(byref(sparse), self._factor, byref(_common))
        n = lower.shape[0]
        if ctypes.cast(self._factor, POINTER(_FactorHead)).contents.minor != n:
            raise RuntimeError("the matrix is not positive definite")
        self.nonzeros = _common.method[0].lnz
        self._n = n

    def solve(self, b):
        b = np.ascontiguousarray(b, float).ravel()
        right = _Dense(self._n, 1, self._n, self._n, b.ctypes.data, None, _REAL, 0)
        found = c_void_p(_library.cholmod_solve(_SYSTEM_A, self._factor, ctypes.addressof(right), ctypes.addressof(_common)))
        x = ctypes.cast(found, POINTER(_Dense)).contents.x
        result = np.ctypeslib.as_array(ctypes.cast(x, POINTER(c_double)), (self._n,)).copy()
        _library.cholmod_free_dense(byref(found), byref(_common))
        return result
