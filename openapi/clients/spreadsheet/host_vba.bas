' What the module Cabinets needs of a spreadsheet program whose macros are written in VBA: cells, remarks, and HTTP
' by way of the system's XML library. Import this file and cabinets.bas as two modules of a macro-enabled workbook with
' the sheets Cabinets, Job, Parts, Hardware, Steps and Checks, and give a button the macro SendCabinets.

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
        HostText = Trim(CStr(cell.Value))
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

' Pin a remark to a cell, or take it off.
Sub HostRemark(sheet As String, row As Long, column As Long, text As String)
    CellAt(sheet, row, column).ClearComments
    If Len(text) > 0 Then CellAt(sheet, row, column).AddComment text
End Sub

Sub HostEmpty(sheet As String)
    ThisWorkbook.Worksheets(sheet).Cells.ClearContents
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
