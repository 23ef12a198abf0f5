"""Opens what Elbowroom wrote with other programs' readers and tells what they see, as one JSON object.

Usage: read_back.py FILE... with files that end in .step, .dxf, .stl or .glb.
"""

import json
import math
import sys

import ezdxf
import trimesh
from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.BRepCheck import BRepCheck_Analyzer
from OCP.BRepGProp import BRepGProp
from OCP.GeomAbs import GeomAbs_Cylinder, GeomAbs_Plane, GeomAbs_Torus
from OCP.GProp import GProp_GProps
from OCP.IFSelect import IFSelect_RetDone
from OCP.STEPCAFControl import STEPCAFControl_Reader
from OCP.STEPControl import STEPControl_Reader
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDocStd import TDocStd_Document
from OCP.TopAbs import TopAbs_FACE, TopAbs_SHELL, TopAbs_SOLID
from OCP.TopExp import TopExp_Explorer
from OCP.TopoDS import TopoDS
from OCP.collections import Sequence_TDF_Label
from OCP.XCAFDoc import XCAFDoc_DocumentTool


def every(shape, kind):
    explorer = TopExp_Explorer(shape, kind)
    while explorer.More():
        yield explorer.Current()
        explorer.Next()


def solid(shape):
    mass = GProp_GProps()
    BRepGProp.VolumeProperties_s(shape, mass, 1e-12)
    kinds = {GeomAbs_Cylinder: "cylinders", GeomAbs_Torus: "tori", GeomAbs_Plane: "planes"}
    seen = {"cylinders": [], "tori": [], "planes": [], "others": []}
    for face in every(shape, TopAbs_FACE):
        surface = BRepAdaptor_Surface(TopoDS.Face(face))
        kind = kinds.get(surface.GetType(), "others")
        figures = []
        if kind == "cylinders":
            figures = [surface.Cylinder().Radius()]
        elif kind == "tori":
            figures = [surface.Torus().MajorRadius(), surface.Torus().MinorRadius()]
        seen[kind].append(figures)
    shells = list(every(shape, TopAbs_SHELL))
    closed = all(shell.Closed() for shell in shells) and len(shells) == 1
    return {"valid": BRepCheck_Analyzer(shape).IsValid(), "closed": closed, "volume": mass.Mass(), **seen}


def step(file):
    reader = STEPControl_Reader()
    assert reader.ReadFile(file) == IFSelect_RetDone
    roots = reader.TransferRoots()
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    named = STEPCAFControl_Reader()
    named.SetNameMode(True)
    named.SetColorMode(True)
    assert named.ReadFile(file) == IFSelect_RetDone and named.Transfer(document)
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    labels = Sequence_TDF_Label()
    shapes.GetShapes(labels)
    names = []
    for index in range(1, labels.Length() + 1):
        name = TDataStd_Name()
        if labels.Value(index).FindAttribute(TDataStd_Name.GetID_s(), name):
            names.append(name.Get().ToExtString())
    colours = Sequence_TDF_Label()
    XCAFDoc_DocumentTool.ColorTool_s(document.Main()).GetColors(colours)
    solids = [solid(shape) for shape in every(reader.OneShape(), TopAbs_SOLID)]
    return {"roots": roots, "names": names, "colours": colours.Length(), "solids": solids}


def dxf(file):
    drawing = ezdxf.readfile(file)
    audit = drawing.audit()
    space = drawing.modelspace()
    pieces = []
    for entity in space.query('LINE ARC[layer=="TUBE_IN_SPACE"]'):
        if entity.dxf.layer != "TUBE_IN_SPACE":
            continue
        if entity.dxftype() == "LINE":
            pieces.append({"from": list(entity.dxf.start), "to": list(entity.dxf.end)})
        else:
            turn = math.radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360)
            ends = [list(point) for point in (entity.start_point, entity.end_point)]
            pieces.append({"from": ends[0], "to": ends[1], "radius": entity.dxf.radius, "angle": turn})
    layers = sorted({entity.dxf.layer for entity in space})
    return {
        "version": drawing.dxfversion,
        "errors": len(audit.errors),
        "fixes": len(audit.fixes),
        "pieces": pieces,
        "layers": layers,
    }


def mesh(file):
    scene = trimesh.load_scene(file)
    whole = scene.to_mesh()
    materials = [getattr(getattr(one.visual, "material", None), "name", None) for one in scene.geometry.values()]
    # Faces that stand at an angle to each other have vertices of their own, which are one by their places.
    whole = trimesh.Trimesh(whole.vertices, whole.faces)
    whole.merge_vertices(digits_vertex=7)
    return {
        "watertight": bool(whole.is_watertight),
        "winding": bool(whole.is_winding_consistent),
        "volume": float(whole.volume),
        "bounds": whole.bounds.tolist(),
        "materials": materials,
    }


def told(file):
    ending = file.rsplit(".", 1)[1]
    return {"step": step, "dxf": dxf, "stl": mesh, "glb": mesh}[ending](file)


if __name__ == "__main__":
    # The kernel talks on standard output: what is told goes to the file that is named first.
    with open(sys.argv[1], "w", encoding="utf-8") as out:
        json.dump({file: told(file) for file in sys.argv[2:]}, out)
