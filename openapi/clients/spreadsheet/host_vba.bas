' What the module Cabinets needs of a spreadsheet program whose macros are written in VBA: cells, remarks,
' pictures, print set-up, and HTTP by way of the system's XML library. Import this file and cabinets.bas as two modules of
' a macro-enabled workbook with the sheets Cabinets, Job, Parts, Hardware, Steps, Costs, Hanging, Checks and Drawings, and
' give a button the macro SendCabinets.

Option Explicit

Private Function CellAt(sheet As String, row As Long, column As Long) As Object
    Set CellAt = ThisWorkbook.Worksheets(sheet).Cells(row, column)
End Function

' The text of a cell; a number with a point, whatever the language of the program.
Function HostText(sheet As String, row As Long, column As Long) As String
    Dim cell As Object
    Set cell = CellAt(sheet, row, column)
    If VarType(cell.Value) = vbDouble Then
        HostText = Trim(Str(cell.Value))
    Else
        HostText = Pointed(Trim(CStr(cell.Value)), Mid(CStr(1.5), 2, 1))
    End If
End Function

Sub HostPut(sheet As String, row As Long, column As Long, text As String, number As Boolean)
    If number Then
        CellAt(sheet, row, column).Value = Val(text)
    ElseIf Len(text) = 0 Then
        CellAt(sheet, row, column).ClearContents
    Else
        CellAt(sheet, row, column).NumberFormat = "@"
        CellAt(sheet, row, column).Value = text
    End If
End Sub

' Fill a sheet from a row on: rows of cells, each text or a number.
Sub HostFill(sheet As String, row As Long, rows As Variant)
    Dim cells As Variant, i As Long, j As Long
    For i = 0 To UBound(rows)
        cells = rows(i)
        For j = 0 To UBound(cells)
            If VarType(cells(j)) = vbDouble Then
                CellAt(sheet, row + i, j + 1).Value = cells(j)
            ElseIf Len(cells(j)) > 0 Then
                HostPut sheet, row + i, j + 1, CStr(cells(j)), False
            End If
        Next j
    Next i
End Sub

' Pin a remark to a cell, or take it off.
Sub HostRemark(sheet As String, row As Long, column As Long, text As String)
    CellAt(sheet, row, column).ClearComments
    If Len(text) > 0 Then CellAt(sheet, row, column).AddComment text
End Sub

Sub HostEmpty(sheet As String)
    Dim i As Long
    ThisWorkbook.Worksheets(sheet).Cells.ClearContents
    For i = ThisWorkbook.Worksheets(sheet).Shapes.Count To 1 Step -1
        ThisWorkbook.Worksheets(sheet).Shapes(i).Delete
    Next i
End Sub

' Print a sheet in landscape, as wide as the paper, its first rows on every page; 0: none of them.
Sub HostPrint(sheet As String, headings As Long)
    With ThisWorkbook.Worksheets(sheet).PageSetup
        .Orientation = xlLandscape
        .Zoom = False
        .FitToPagesWide = 1
        .FitToPagesTall = False
        If headings > 0 Then .PrintTitleRows = "$1:$" & headings
    End With
End Sub

Function HostLetter(code As Long) As String
    HostLetter = ChrW(code)
End Function

' Post CSV; status is 0 where there was no answer.
Function HostPost(address As String, body As String, status As Long) As String
    Dim http As Object
    status = 0
    On Error GoTo Silent
    Set http = CreateObject("MSXML2.ServerXMLHTTP.6.0")
    http.setTimeouts 5000, 5000, 60000, 60000
    http.Open "POST", address, False
    http.setRequestHeader "Content-Type", "text/csv; charset=utf-8"
    http.send body
    status = http.status
    HostPost = http.responseText
    Exit Function
Silent:
    HostPost = Err.Description
End Function

' Put an SVG picture on a sheet, its upper edge that of a row; the number of the first row under it.
Function HostPicture(sheet As String, row As Long, svg As String) As Long
    Dim place As String, stream As Object, shape As Object, below As Long
    place = Environ("TEMP") & "\casewright-" & Int(Rnd * 1000000000) & ".svg"
    Set stream = CreateObject("ADODB.Stream")
    stream.Type = 2
    stream.Charset = "utf-8"
    stream.Open
    stream.WriteText svg
    stream.SaveToFile place, 2
    stream.Close
    Set shape = ThisWorkbook.Worksheets(sheet).Shapes.AddPicture(place, False, True, 0, CellAt(sheet, row, 1).Top, -1, -1)
    Kill place
    below = row
    Do While CellAt(sheet, below, 1).Top < shape.Top + shape.Height
        below = below + 1
    Loop
    HostPicture = below
End Function
