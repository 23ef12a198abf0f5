"""Writes files of pipes with OpenCASCADE and of centrelines with ezdxf, as other programs would hand them to us.

Usage: write_inputs.py FOLDER. What each file holds is in the test that reads it, `main.rs`.
"""

import sys
from pathlib import Path

import ezdxf
import ezdxf.math
import numpy
from OCP.BRep import BRep_Builder
from OCP.BRepAlgoAPI import BRepAlgoAPI_Cut, BRepAlgoAPI_Fuse
from OCP.BRepBuilderAPI import (
    BRepBuilderAPI_MakeEdge,
    BRepBuilderAPI_MakeFace,
    BRepBuilderAPI_MakeWire,
    BRepBuilderAPI_NurbsConvert,
    BRepBuilderAPI_Transform,
)
from OCP.BRepOffsetAPI import BRepOffsetAPI_MakePipe
from OCP.BRepPrimAPI import BRepPrimAPI_MakeBox, BRepPrimAPI_MakeCylinder
from OCP.GC import GC_MakeArcOfCircle, GC_MakeSegment
from OCP.gp import gp_Ax1, gp_Ax2, gp_Circ, gp_Dir, gp_Pnt, gp_Trsf, gp_Vec
from OCP.IFSelect import IFSelect_RetDone
from OCP.Interface import Interface_Static
from OCP.ShapeUpgrade import ShapeUpgrade_ShapeDivideClosed
from OCP.STEPCAFControl import STEPCAFControl_Writer
from OCP.STEPControl import STEPControl_AsIs, STEPControl_Writer
from OCP.TCollection import TCollection_ExtendedString
from OCP.TDataStd import TDataStd_Name
from OCP.TDocStd import TDocStd_Document
from OCP.TopLoc import TopLoc_Location
from OCP.TopoDS import TopoDS_Compound
from OCP.XCAFDoc import XCAFDoc_DocumentTool

from centreline import pieces

POINTS = [(0, 0, 0), (400, 0, 0), (600, 300, 0), (600, 500, 350), (900, 600, 500)]
CLR, OUTER, INNER = 120.6, 30.15, 28.15


def point(of):
    return gp_Pnt(*[float(value) for value in of])


def edge(piece):
    if piece[0] == "line":
        return BRepBuilderAPI_MakeEdge(GC_MakeSegment(point(piece[1]), point(piece[2])).Value()).Edge()
    return BRepBuilderAPI_MakeEdge(GC_MakeArcOfCircle(*[point(of) for of in piece[1:]]).Value()).Edge()


def swept(run, radius):
    """A rod along straights and arcs that follow each other."""
    wire = BRepBuilderAPI_MakeWire()
    for piece in run:
        wire.Add(edge(piece))
    towards = numpy.array(run[0][2]) - numpy.array(run[0][1])
    if run[0][0] == "arc":
        # The tangent of an arc of which start, middle and end are known: the chord turned back by a quarter of its angle.
        chord, half = numpy.array(run[0][3]) - run[0][1], numpy.array(run[0][2]) - run[0][1]
        axis = numpy.cross(half, chord)
        axis /= numpy.linalg.norm(axis)
        turn = numpy.arctan2(numpy.linalg.norm(numpy.cross(half, chord)), half @ chord) * 2
        towards = half * numpy.cos(-turn / 2) + numpy.cross(axis, half) * numpy.sin(-turn / 2)
    circle = gp_Circ(gp_Ax2(point(run[0][1]), gp_Dir(*[float(value) for value in towards])), radius)
    outline = BRepBuilderAPI_MakeWire(BRepBuilderAPI_MakeEdge(circle).Edge()).Wire()
    return BRepOffsetAPI_MakePipe(wire.Wire(), BRepBuilderAPI_MakeFace(outline).Face()).Shape()


def pipe(run, outer=OUTER, inner=INNER):
    return BRepAlgoAPI_Cut(swept(run, outer), swept(run, inner)).Shape()


def compound(shapes):
    builder, whole = BRep_Builder(), TopoDS_Compound()
    builder.MakeCompound(whole)
    for shape in shapes:
        builder.Add(whole, shape)
    return whole


def write(path, shape, unit="MM", schema="AP214IS"):
    Interface_Static.SetCVal_s("write.step.unit", unit)
    Interface_Static.SetCVal_s("write.step.schema", schema)
    writer = STEPControl_Writer()
    assert writer.Transfer(shape, STEPControl_AsIs) == IFSelect_RetDone
    assert writer.Write(str(path)) == IFSelect_RetDone
    Interface_Static.SetCVal_s("write.step.unit", "MM")
    Interface_Static.SetCVal_s("write.step.schema", "AP214IS")


def motion(shift, axis, degrees):
    turned, moved = gp_Trsf(), gp_Trsf()
    turned.SetRotation(gp_Ax1(gp_Pnt(0, 0, 0), gp_Dir(*axis)), float(numpy.radians(degrees)))
    moved.SetTranslation(gp_Vec(*shift))
    return moved.Multiplied(turned)


def write_assembly(path, tube):
    """An assembly of the tube twice and a sub-assembly of it once more, each with a place of its own, and a bracket."""
    document = TDocStd_Document(TCollection_ExtendedString("XmlOcaf"))
    shapes = XCAFDoc_DocumentTool.ShapeTool_s(document.Main())
    part = shapes.AddShape(tube, False)
    TDataStd_Name.Set_s(part, TCollection_ExtendedString("Downpipe"))
    bracket = shapes.AddShape(BRepPrimAPI_MakeBox(10.0, 20.0, 30.0).Shape(), False)
    TDataStd_Name.Set_s(bracket, TCollection_ExtendedString("Bracket"))
    inner, outer = shapes.NewShape(), shapes.NewShape()
    TDataStd_Name.Set_s(inner, TCollection_ExtendedString("Inner"))
    TDataStd_Name.Set_s(outer, TCollection_ExtendedString("Whole"))
    shapes.AddComponent(inner, part, TopLoc_Location(motion((0, 0, 700), (0, 1, 0), 30)))
    shapes.AddComponent(outer, part, TopLoc_Location())
    shapes.AddComponent(outer, part, TopLoc_Location(motion((100, -50, 25), (0, 0, 1), 90)))
    shapes.AddComponent(outer, inner, TopLoc_Location(motion((-300, 0, 0), (1, 0, 0), 45)))
    shapes.AddComponent(outer, bracket, TopLoc_Location(motion((0, 900, 0), (1, 0, 0), 0)))
    shapes.UpdateAssemblies()
    Interface_Static.SetCVal_s("write.step.schema", "AP242DIS")
    writer = STEPCAFControl_Writer()
    writer.Transfer(document, STEPControl_AsIs)
    assert writer.Write(str(path)) == IFSelect_RetDone
    Interface_Static.SetCVal_s("write.step.schema", "AP214IS")


def write_solids(folder):
    run = pieces(POINTS, CLR)
    tube = pipe(run)
    write(folder / "pipe.step", tube)
    write(folder / "pipe-inch.step", tube, unit="INCH")
    write(folder / "pipe-metre.step", tube, unit="M")
    write(folder / "pipe-ap203.stp", tube, schema="AP203")
    write(folder / "pipe-ap242.step", tube, schema="AP242DIS")
    divided = ShapeUpgrade_ShapeDivideClosed(tube)
    divided.SetNbSplitPoints(1)
    divided.Perform()
    write(folder / "halves.step", divided.Result())
    each = [pipe([piece]) for piece in run]
    write(folder / "pieces.step", compound(each))
    fused = each[0]
    for piece in each[1:]:
        fused = BRepAlgoAPI_Fuse(fused, piece).Shape()
    write(folder / "fused.step", fused)
    write(folder / "rod.step", swept(run, OUTER))
    write(folder / "spline.step", BRepBuilderAPI_NurbsConvert(tube, True).Shape())
    write(folder / "box.step", BRepPrimAPI_MakeBox(10.0, 20.0, 30.0).Shape())
    branch = BRepPrimAPI_MakeCylinder(gp_Ax2(gp_Pnt(100, 0, 0), gp_Dir(0, 0, 1)), 15.0, 200.0).Shape()
    write(folder / "branch.step", BRepAlgoAPI_Fuse(tube, branch).Shape())
    # A U of more than half a turn beside the first tube, in one file and one product.
    turn = numpy.radians(200)
    arc = [numpy.array([900 + 80 * numpy.sin(a), 400 - 80 * numpy.cos(a), 50]) for a in (0, turn / 2, turn)]
    end = arc[2] + 150 * numpy.array([numpy.cos(turn), numpy.sin(turn), 0])
    u = [("line", numpy.array([700.0, 320, 50]), arc[0]), ("arc", *arc), ("line", arc[2], end)]
    write(folder / "two.step", compound([tube, pipe(u, 25.0, 23.5)]))
    write(folder / "moved.step", BRepBuilderAPI_Transform(tube, motion((12, 34, 56), (1, 2, 3), 77), True).Shape())
    write_assembly(folder / "assembly.step", tube)
    write_assembly(folder / "assembly-halves.step", divided.Result())


def write_drawings(folder):
    """The same centreline as lines and arcs, as a polyline in space, and flat with bulges; in several versions."""
    run = pieces(POINTS, CLR)
    for version in ("R12", "R2000", "R2018"):
        drawing = ezdxf.new(version, units=1 if version == "R2018" else 4)
        space = drawing.modelspace()
        scale = 1 / 25.4 if version == "R2018" else 1
        # In no order, and some of them the other way round.
        for number, piece in sorted(enumerate(run), key=lambda numbered: (numbered[0] * 3) % 7):
            if piece[0] == "line":
                ends = [numpy.array(end) * scale for end in piece[1:]]
                space.add_line(*(ends if number % 4 else ends[::-1]), dxfattribs={"layer": "Tube"})
            else:
                start, middle, end = (numpy.array(of) * scale for of in piece[1:])
                normal = numpy.cross(middle - start, end - middle)
                normal /= numpy.linalg.norm(normal)
                # The centre lies on the line from the middle of the chord through the middle of the arc, a radius away.
                half = (start + end) / 2
                inward = (half - middle) / numpy.linalg.norm(half - middle)
                centre = middle + inward * CLR * scale
                ocs = ezdxf.math.OCS(ezdxf.math.Vec3(*normal))
                flat = [ocs.from_wcs(ezdxf.math.Vec3(*of)) for of in (centre, start, end)]
                angles = [(of - flat[0]).angle_deg for of in flat[1:]]
                space.add_arc(flat[0], CLR * scale, *angles, dxfattribs={"layer": "Tube", "extrusion": tuple(normal)})
        space.add_text("a word", dxfattribs={"layer": "Words"})
        drawing.saveas(folder / f"chain-{version}.dxf")
        if version != "R12":
            drawing.saveas(folder / f"chain-{version}-binary.dxf", fmt="bin")
    drawing = ezdxf.new("R2010", units=4)
    drawing.modelspace().add_polyline3d(POINTS)
    drawing.saveas(folder / "polyline.dxf")
    drawing = ezdxf.new("R12")
    drawing.modelspace().add_polyline2d([(0, 0, 0), (200, 0, 1), (200, 160, 0), (50, 160, 0)], format="xyb")
    drawing.saveas(folder / "u-R12.dxf")
    drawing.saveas(folder / "u-R12-binary.dxf", fmt="bin")


if __name__ == "__main__":
    into = Path(sys.argv[1])
    into.mkdir(parents=True, exist_ok=True)
    write_solids(into)
    write_drawings(into)
