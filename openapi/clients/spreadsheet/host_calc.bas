' What the module Cabinets needs of LibreOffice Calc: cells, remarks, and HTTP by way of the command curl, which
' answers with the text of a refusal too.

Option Explicit

Private Function CellAt(sheet As String, row As Long, column As Long) As Object
    CellAt = ThisComponent.Sheets.getByName(sheet).getCellByPosition(column - 1, row - 1)
End Function

' The text of a cell; a number with a point, whatever the language of the program.
Function HostText(sheet As String, row As Long, column As Long) As String
    Dim cell As Object
    cell = CellAt(sheet, row, column)
    If cell.Type = com.sun.star.table.CellContentType.VALUE Then
        HostText = Trim(Str(cell.Value))
    Else
        HostText = Trim(cell.String)
    End If
End Function

Sub HostPut(sheet As String, row As Long, column As Long, text As String, number As Boolean)
    If number Then
        CellAt(sheet, row, column).Value = Val(text)
    Else
        CellAt(sheet, row, column).String = text
    End If
End Sub

' Pin a remark to a cell, or take it off.
Sub HostRemark(sheet As String, row As Long, column As Long, text As String)
    Dim remarks As Object, place As Object, i As Long
    remarks = ThisComponent.Sheets.getByName(sheet).getAnnotations()
    place = CellAt(sheet, row, column).CellAddress
    For i = remarks.Count - 1 To 0 Step -1
        If remarks.getByIndex(i).Position.Row = row - 1 And remarks.getByIndex(i).Position.Column = column - 1 Then
            remarks.removeByIndex(i)
        End If
    Next i
    If Len(text) > 0 Then remarks.insertNew(place, text)
End Sub

Sub HostEmpty(sheet As String)
    ThisComponent.Sheets.getByName(sheet).clearContents(1 + 2 + 4 + 8 + 16)
End Sub

Function HostLetter(code As Long) As String
    HostLetter = Chr(code)
End Function

' Post CSV; status is 0 where there was no answer.
Function HostPost(address As String, body As String, status As Long) As String
    Dim files As Object, folder As String, arguments As String, heads As String
    files = createUnoService("com.sun.star.ucb.SimpleFileAccess")
    folder = createUnoService("com.sun.star.util.PathSettings").Temp & "/casewright-" & Format(Now, "yyyymmddhhnnss") & Int(Rnd * 1000000)
    files.createFolder(folder)
    WriteText files, folder & "/body.csv", body
    arguments = "--silent --show-error --max-time 60 --proto =http,https --header Expect: --header Content-Type:text/csv"
    arguments = arguments & " --data-binary " & Shielded("@" & ConvertFromURL(folder & "/body.csv"))
    arguments = arguments & " --dump-header " & Shielded(ConvertFromURL(folder & "/heads"))
    arguments = arguments & " --output " & Shielded(ConvertFromURL(folder & "/answer"))
    arguments = arguments & " --url " & Shielded(address)
    status = 0
    On Error GoTo Silent
    Shell("curl", 0, arguments, True)
    If files.exists(folder & "/heads") Then
        heads = ReadText(files, folder & "/heads")
        If Left(heads, 5) = "HTTP/" Then status = Val(Mid(heads, InStr(heads, " ") + 1, 3))
        If files.exists(folder & "/answer") Then HostPost = ReadText(files, folder & "/answer")
    End If
    files.kill(folder)
    Exit Function
Silent:
    HostPost = "The command curl could not be run: " & Error$
    files.kill(folder)
End Function

Private Function Shielded(text As String) As String
    Shielded = """" & Replace(text, """", "") & """"
End Function

Private Sub WriteText(files As Object, place As String, text As String)
    Dim out As Object
    out = createUnoService("com.sun.star.io.TextOutputStream")
    out.setOutputStream(files.openFileWrite(place))
    out.setEncoding("UTF-8")
    out.writeString(text)
    out.closeOutput()
End Sub

Private Function ReadText(files As Object, place As String) As String
    Dim source As Object
    source = createUnoService("com.sun.star.io.TextInputStream")
    source.setInputStream(files.openFileRead(place))
    source.setEncoding("UTF-8")
    ReadText = source.readString(Array(), False)
    source.closeInput()
End Function
